/**
 * The text of a caption file in whatever encoding it came: UTF-8 or UTF-16 by its byte order mark or by how its zeros lie,
 * UTF-8 where it is valid, else Windows-1252, which also reads Latin-1 and ASCII. U+0000 is replaced by U+FFFD.
 *
 * Sources: WHATWG Encoding Standard for the decoders; WebVTT, section 6.1, for U+0000; that old English caption files are in Windows-1252 is common practice.
 */
export function decodeCaptions(bytes: Uint8Array): string {
  return decodedText(bytes).replaceAll('\0', '\ufffd')
}

function decodedText(bytes: Uint8Array): string {
  const decode = (label: string) => new TextDecoder(label).decode(bytes)
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return decode('utf-16le')
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return decode('utf-16be')
  const zeros = zeroShares(bytes)
  // Latin letters have a zero in every second byte of UTF-16, and nothing else that is text has.
  if (zeros.odd > 0.4 && zeros.even < 0.1) return decode('utf-16le')
  if (zeros.even > 0.4 && zeros.odd < 0.1) return decode('utf-16be')
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    // Not UTF-8, so an older encoding of one byte a letter.
    return Array.from(bytes, windows1252).join('')
  }
}

// What Windows-1252 has where Latin-1 has control characters, 0x80 to 0x9f. Some releases of Node decode the one as the other.
// Source: WHATWG Encoding Standard, index windows-1252.
const between = '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ'

function windows1252(byte: number): string {
  return between[byte - 0x80] ?? String.fromCharCode(byte)
}

/** The shares of zeros among the bytes at even and at odd places of the beginning. */
function zeroShares(bytes: Uint8Array): {
  readonly even: number
  readonly odd: number
} {
  const count = Math.min(bytes.length, 2000)
  let even = 0
  let odd = 0
  for (let index = 0; index < count; index += 1) {
    if (bytes[index] !== 0) continue
    if (index % 2 === 0) even += 1
    else odd += 1
  }
  const half = Math.max(1, count / 2)
  return { even: even / half, odd: odd / half }
}
