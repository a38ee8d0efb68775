import 'server-only'
import type { Metadata } from 'sharp'
import { type JpegCondition, jpegWalk } from '#services/intake/jpeg-walk'
import {
  type PhotoMetadata,
  readMetadata,
} from '#services/intake/read-metadata'
import { openPicture } from '#services/renditions/open-picture'

/** What is found of a JPEG while it still arrives, so that its sender need not wait for it afterwards. */
export type LookAhead = {
  /** Takes the next bytes; of what is no JPEG nothing is found. */
  readonly take: (bytes: Buffer) => void
  /** What its structure says, once it has arrived whole. */
  readonly condition: () => JpegCondition
  /** What it says of itself, as soon as that has come; undefined where that must be read from the file. */
  readonly said: () => JpegSaid | undefined
}

/** What a JPEG says of itself. */
export type JpegSaid = {
  /** As the image library reads it; rejected where it cannot. */
  readonly header: Promise<Metadata>
  readonly metadata: Promise<PhotoMetadata>
}

/** Looks at a file as it arrives. */
export function lookAhead(): LookAhead {
  let said: JpegSaid | undefined
  const walk = jpegWalk((start) => {
    said = {
      header: openPicture(start).metadata(),
      metadata: readMetadata(start, 'jpeg'),
    }
    // Nobody may be waiting for them: the upload may break off.
    said.header.catch(() => undefined)
    said.metadata.catch(() => undefined)
  })
  return {
    take: walk.take,
    condition: walk.end,
    said: () => said,
  }
}
