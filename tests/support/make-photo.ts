import { newPicture, openPicture } from '#services/renditions/open-picture'

/** What a made photo says of itself; all as the camera would write it. */
export type MadePhoto = {
  readonly width?: number
  readonly height?: number
  readonly colour?: {
    readonly r: number
    readonly g: number
    readonly b: number
  }
  /** DateTimeOriginal. */
  readonly taken?: string
  readonly subSeconds?: string
  /** OffsetTimeOriginal. */
  readonly offset?: string
  /** OffsetTime, which belongs to the last change and not to the photo. */
  readonly changeOffset?: string
  readonly make?: string
  readonly model?: string
  readonly serial?: string
  readonly orientation?: number
  /** GPSDateStamp and GPSTimeStamp, such as ['2026:10:22', '8/1 2/1 9/1']. */
  readonly satellite?: readonly [date: string, time: string]
  /** GPSLatitude and GPSLongitude, as three ratios each. */
  readonly place?: readonly [latitude: string, longitude: string]
}

/** The formats that photos can be made in here. */
export type MadeFormat = 'jpeg' | 'png' | 'webp' | 'tiff' | 'avif'

/** The bytes of a photo: half one colour and half another, with the Exif block that was asked for. */
export async function makePhoto(
  photo: MadePhoto = {},
  format: MadeFormat = 'jpeg',
): Promise<Buffer> {
  const width = photo.width ?? 64
  const height = photo.height ?? 48
  const colour = photo.colour ?? { r: 20, g: 120, b: 110 }
  const stripe = await newPicture({
    create: {
      width: Math.max(1, Math.floor(width / 2)),
      height,
      channels: 3,
      background: { r: 200, g: 150, b: 80 },
    },
  })
    .png()
    .toBuffer()
  const pixels = await newPicture({
    create: { width, height, channels: 3, background: colour },
  })
    .composite([{ input: stripe, left: 0, top: 0 }])
    .png()
    .toBuffer()
  const exif = exifOf(photo)
  const picture =
    photo.orientation === undefined
      ? openPicture(pixels)
      : openPicture(pixels).withMetadata({ orientation: photo.orientation })
  return (exif === undefined ? picture : picture.withExifMerge(exif))
    .toFormat(format)
    .toBuffer()
}

function exifOf(photo: MadePhoto) {
  const exif = {
    IFD0: compact({ Make: photo.make, Model: photo.model }),
    IFD2: compact({
      DateTimeOriginal: photo.taken,
      SubSecTimeOriginal: photo.subSeconds,
      OffsetTimeOriginal: photo.offset,
      OffsetTime: photo.changeOffset,
      BodySerialNumber: photo.serial,
    }),
    IFD3: compact({
      GPSDateStamp: photo.satellite?.[0],
      GPSTimeStamp: photo.satellite?.[1],
      GPSLatitudeRef: photo.place === undefined ? undefined : 'N',
      GPSLatitude: photo.place?.[0],
      GPSLongitudeRef: photo.place === undefined ? undefined : 'W',
      GPSLongitude: photo.place?.[1],
    }),
  }
  const tags = Object.values(exif).flatMap((part) => Object.keys(part))
  return tags.length === 0 ? undefined : exif
}

function compact(
  tags: Readonly<Record<string, string | undefined>>,
): Record<string, string> {
  const kept: Record<string, string> = {}
  for (const [name, value] of Object.entries(tags)) {
    if (value !== undefined) kept[name] = value
  }
  return kept
}
