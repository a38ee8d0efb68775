/** The same picture as another file: a comment segment behind the first marker (ISO/IEC 10918-1 B.2.4.5). */
export function withComment(jpeg: Buffer, comment: string): Buffer {
  const text = Buffer.from(comment)
  const head = Buffer.from([0xff, 0xfe, 0, text.byteLength + 2])
  return Buffer.concat([jpeg.subarray(0, 2), head, text, jpeg.subarray(2)])
}
