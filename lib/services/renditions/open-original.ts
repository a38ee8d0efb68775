import 'server-only'
import { open } from 'node:fs/promises'
import type { Sharp } from 'sharp'
import { decodeHeic } from '#services/renditions/decode-heic'
import { newPicture, openPicture } from '#services/renditions/open-picture'

/** The boxes that describe a picture stand in front of it. */
const boxBytes = 4096

/** How an original is to be opened. */
export type OriginalOptions = {
  /** `none` shows what can be shown of a damaged picture. */
  readonly failOn?: 'warning' | 'error' | 'none'
  /** How often its owner turned it by hand, a quarter turn clockwise each: 0 to 3. */
  readonly quarterTurns?: number
}

/**
 * An original of any kind that is taken, upright: turned as its file says and then as its owner says. Its pixels are
 * still in the colours of its own profile; the image library converts them as it writes.
 *
 * @throws Error when it is not there, or, for HEIC, when it cannot be decoded
 */
export async function openOriginal(
  file: string,
  { failOn = 'warning', quarterTurns = 0 }: OriginalOptions = {},
): Promise<Sharp> {
  const { format, compression, icc } = await openPicture(file, {
    failOn,
  }).metadata()
  // Of what stands in such boxes the image library decodes AV1 alone.
  const source =
    format === 'heif' && compression !== 'av1'
      ? await decodeHeic(file, icc ?? (await namedProfile(file)))
      : file
  const upright = openPicture(source, { failOn }).autoOrient()
  return quarterTurns === 0 ? upright : upright.rotate(quarterTurns * 90)
}

/** The first bytes of a file, or all of it when it is shorter. */
export async function readHead(
  file: string,
  byteLength: number,
): Promise<Uint8Array> {
  const handle = await open(file, 'r')
  try {
    const buffer = new Uint8Array(byteLength)
    const { bytesRead } = await handle.read(buffer, 0, byteLength, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await handle.close()
  }
}

/** A profile for colours that are named in the file's boxes instead. */
async function namedProfile(file: string): Promise<Uint8Array | undefined> {
  return namesDisplayP3(await readHead(file, boxBytes))
    ? displayP3()
    : undefined
}

/**
 * Whether a colour box names the primaries of P3 with the white of D65, as some phones do in place of a profile.
 *
 * Source: ISO/IEC 23008-12 6.5.5 (colr), ITU-T H.273 table 2 (ColourPrimaries 12).
 */
function namesDisplayP3(head: Uint8Array): boolean {
  const bytes = Buffer.from(head.buffer, head.byteOffset, head.byteLength)
  const at = bytes.indexOf('colrnclx', 0, 'latin1')
  return (
    at !== -1 &&
    at + 10 <= bytes.byteLength &&
    bytes.readUInt16BE(at + 8) === 12
  )
}

async function displayP3(): Promise<Uint8Array | undefined> {
  const dot = await newPicture({
    create: { width: 1, height: 1, channels: 3, background: 'white' },
  })
    .withIccProfile('p3')
    .png()
    .toBuffer()
  return (await openPicture(dot).metadata()).icc
}
