/** Bytes in pieces of some length, as they come over a network. */
export function piecesOf(bytes: Buffer, length: number): readonly Buffer[] {
  return Array.from(
    { length: Math.ceil(bytes.byteLength / length) },
    (_, index) => bytes.subarray(index * length, (index + 1) * length),
  )
}
