import 'server-only'
import exifr from 'exifr'
import type { TimeSource } from '#core/time/capture-time'
import { exifTime } from '#core/time/exif-time'
import { satelliteTime } from '#core/time/satellite-time'
import type { Instant } from '#core/units'
import type { PictureKind } from '#services/intake/content-kind'
import { readOtherDates } from '#services/intake/read-other-dates'
import { readPngExif } from '#services/intake/read-png-exif'
import { openPicture } from '#services/renditions/open-picture'

/** What a photo's file says of itself. */
export type PhotoMetadata = {
  /** What the camera's clock showed: ISO 8601 without offset, with the camera's fraction. */
  readonly local?: string
  /** The offset that belongs to `local`, as the camera wrote it. */
  readonly offset?: string
  /** The record that `local` was found in. */
  readonly source?: TimeSource
  readonly satelliteAt?: Instant
  readonly camera?: CameraName
}

/** How a camera names itself; `serial` is empty when it keeps that to itself. */
export type CameraName = {
  readonly make: string
  readonly model: string
  readonly serial: string
}

// Strings as they stand: a reader that makes dates of them does it in the server's own zone. And only the tags that are
// wanted: the reader gives up on the whole block when one tag among the others is odd.
const options = {
  reviveValues: false,
  translateValues: false,
  mergeOutput: false,
  tiff: true,
  ifd0: { pick: ['Make', 'Model'] },
  exif: {
    pick: [
      'DateTimeOriginal',
      'SubSecTimeOriginal',
      'OffsetTimeOriginal',
      'CreateDate',
      'SubSecTimeDigitized',
      'OffsetTimeDigitized',
      'SerialNumber',
    ],
  },
  gps: {
    pick: ['GPSDateStamp', 'GPSTimeStamp', 'GPSLatitude', 'GPSLongitude'],
  },
  ifd1: false,
  interop: false,
  xmp: false,
  icc: false,
  iptc: false,
  jfif: false,
  ihdr: false,
  makerNote: false,
  userComment: false,
}

/**
 * What a photo's file says about its time and its camera; what is blank, zero or impossible is left out.
 *
 * @param source the file of a picture of the given kind, or what stands in a JPEG before its coded picture; what cannot be
 *   read in it is as if it were not there
 */
export async function readMetadata(
  source: string | Buffer,
  kind: PictureKind,
): Promise<PhotoMetadata> {
  const tags =
    (await tagsOf(source)) ??
    (typeof source === 'string' || source.includes(exifMark)
      ? await tagsOfBlock(source, kind)
      : undefined)
  const satelliteAt = fix(tags?.gps)
  return {
    ...((tags === undefined ? undefined : originalTime(tags)) ??
      (await readOtherDates(source)) ??
      (tags === undefined ? undefined : digitizedTime(tags))),
    ...(satelliteAt === undefined ? {} : { satelliteAt }),
    ...(tags === undefined ? {} : camera(tags)),
  }
}

/** Stands before the Exif block in a JPEG. Source: Exif 2.32 section 4.5.4 and 4.7.2. */
const exifMark = 'Exif\0\0'

type Tags = {
  readonly ifd0: unknown
  readonly exif: unknown
  readonly gps: unknown
}

/** The reader knows JPEG, TIFF and some AVIF by their structure; it throws, or returns errors, on the rest. */
async function tagsOf(source: string | Buffer): Promise<Tags | undefined> {
  try {
    const found: unknown = await exifr.parse(source, options)
    if (typeof found !== 'object' || found === null) return undefined
    const tags = {
      ifd0: part(found, 'ifd0'),
      exif: part(found, 'exif'),
      gps: part(found, 'gps'),
    }
    return Object.values(tags).every((tag) => tag === undefined)
      ? undefined
      : tags
  } catch {
    // A block that cannot be read says nothing; the picture itself was found sound.
    return undefined
  }
}

/** The Exif block as the picture's own decoder hands it out: it is a TIFF without pictures. */
async function tagsOfBlock(
  source: string | Buffer,
  kind: PictureKind,
): Promise<Tags | undefined> {
  const block =
    (await exifOf(source)) ??
    (kind === 'png' && typeof source === 'string'
      ? await readPngExif(source)
      : undefined)
  if (block === undefined) return undefined
  const prefixed = block.toString('latin1', 0, 6) === exifMark
  return tagsOf(prefixed ? block.subarray(6) : block)
}

async function exifOf(source: string | Buffer): Promise<Buffer | undefined> {
  try {
    return (await openPicture(source).metadata()).exif
  } catch {
    // It is being looked at meanwhile, and turned away for what is wrong with it.
    return undefined
  }
}

type LocalTime = Pick<PhotoMetadata, 'local' | 'offset' | 'source'>

function originalTime(tags: Tags): LocalTime | undefined {
  return timeOf(
    tags,
    ['DateTimeOriginal', 'SubSecTimeOriginal', 'OffsetTimeOriginal'],
    'exif',
  )
}

/** In a camera the picture is made digital as it is taken, so its second date stands in for the first. */
function digitizedTime(tags: Tags): LocalTime | undefined {
  return timeOf(
    tags,
    ['CreateDate', 'SubSecTimeDigitized', 'OffsetTimeDigitized'],
    'digitized',
  )
}

/** An offset belongs to one date alone: OffsetTime, that of the last change, is never put in the place of these. */
function timeOf(
  tags: Tags,
  [date, subSeconds, offset]: readonly [string, string, string],
  source: TimeSource,
): LocalTime | undefined {
  const written = exifTime(
    textAt(tags.exif, date),
    textAt(tags.exif, subSeconds),
    textAt(tags.exif, offset),
  )
  return written === undefined ? undefined : { ...written, source }
}

function fix(gps: unknown): Instant | undefined {
  const latitude = numbersAt(gps, 'GPSLatitude')
  const longitude = numbersAt(gps, 'GPSLongitude')
  // A place that was taken out of the file is left as zeros, and its time is not to be trusted either.
  const place = [...latitude, ...longitude]
  if (place.length > 0 && place.every((part) => !(Math.abs(part) > 0))) {
    return undefined
  }
  return satelliteTime(
    textAt(gps, 'GPSDateStamp'),
    numbersAt(gps, 'GPSTimeStamp'),
  )
}

function camera(tags: Tags): Pick<PhotoMetadata, 'camera'> {
  const make = nameAt(tags.ifd0, 'Make')
  const model = nameAt(tags.ifd0, 'Model')
  if (make === '' && model === '') return {}
  return { camera: { make, model, serial: nameAt(tags.exif, 'SerialNumber') } }
}

function part(from: unknown, name: string): unknown {
  return typeof from === 'object' && from !== null
    ? Reflect.get(from, name)
    : undefined
}

function textAt(from: unknown, name: string): string {
  const value = part(from, name)
  return typeof value === 'string' ? value : ''
}

/** A name fit for the screen: without control characters, and no longer than a name is. */
function nameAt(from: unknown, name: string): string {
  return textAt(from, name)
    .replaceAll(/[\p{Cc}\p{Cf}]/gu, ' ')
    .trim()
    .slice(0, 80)
}

function numbersAt(from: unknown, name: string): readonly number[] {
  const value = part(from, name)
  if (!Array.isArray(value)) return []
  return value.map((one: unknown) => (typeof one === 'number' ? one : NaN))
}
