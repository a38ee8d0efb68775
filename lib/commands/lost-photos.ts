import { createHash } from 'node:crypto'

/** A photo that a server said it keeps. */
export type Acknowledged = { readonly id: string; readonly sha256: string }

/** How many of these photos a server has not got, or not byte for byte. */
export async function countLost(
  url: string,
  photos: readonly Acknowledged[],
): Promise<number> {
  let lost = 0
  for (const { id, sha256 } of photos) {
    const answer = await fetch(`${url}/api/photos/${id}/original`)
    const bytes = Buffer.from(await answer.arrayBuffer())
    const found = createHash('sha256').update(bytes).digest('hex')
    if (!answer.ok || found !== sha256) lost += 1
  }
  return lost
}
