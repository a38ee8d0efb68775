import { readFile } from 'node:fs/promises'
import { lookAhead } from '#services/intake/look-ahead'
import {
  type PhotoMetadata,
  readMetadata,
} from '#services/intake/read-metadata'
import { piecesOf } from './pieces-of'

/** What the file of a JPEG says of itself, read as the server does: while it arrives, or else from the whole of it. */
export async function readArrivingJpeg(file: string): Promise<PhotoMetadata> {
  const ahead = lookAhead()
  for (const piece of piecesOf(await readFile(file), 65_536)) ahead.take(piece)
  return ahead.said()?.metadata ?? readMetadata(file, 'jpeg')
}
