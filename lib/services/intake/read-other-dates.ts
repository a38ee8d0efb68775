import 'server-only'
import { readFile } from 'node:fs/promises'
import { DOMParser, onErrorStopParsing } from '@xmldom/xmldom'
import ExifReader from 'exifreader'
import { exifTime } from '#core/time/exif-time'
import { iptcDate } from '#core/time/iptc-date'
import { type WrittenTime, xmpDate } from '#core/time/xmp-date'
import type { TimeSource } from '#core/time/capture-time'

/** A capture time and the record that it was found in. */
export type FoundTime = WrittenTime & { readonly source: TimeSource }

/**
 * The capture time of a picture whose camera left none where cameras leave it, from the first of these that has it.
 *
 * 1. Exif DateTimeOriginal, read once more by another reader.
 * 2. XMP exif:DateTimeOriginal, then photoshop:DateCreated: both are the moment of the picture's making.
 * 3. IPTC Date Created with Time Created: the same, without fractions, and with an offset that is often made up.
 * 4. Exif DateTimeDigitized with its own offset, which in a camera is the same moment and in a scanner is not.
 * 5. XMP xmp:CreateDate: the moment of the file's making.
 *
 * The date of the last change (Exif DateTime, xmp:ModifyDate) is never one of them: an edit moves it.
 *
 * Sources: Exif 2.32 (CIPA DC-008-2019) section 4.6.5; ISO 16684-1:2019 section 8.4 (xmp:CreateDate) and its part 2
 * (exif, photoshop); IPTC-NAA IIM 4.2, 2:55 and 2:60; the order original before digitized, Exif before XMP before IPTC
 * follows the definitions there.
 *
 * @param source a file, or its bytes as far as its metadata goes
 */
export async function readOtherDates(
  source: string | Buffer,
): Promise<FoundTime | undefined> {
  const tags = await tagsOf(source)
  if (tags === undefined) return undefined
  const exif = (date: string, subSeconds: string, offset: string) =>
    exifTime(
      textAt(tags.exif, date),
      textAt(tags.exif, subSeconds),
      textAt(tags.exif, offset),
    )
  const xmp = (name: string) => xmpDate(textAt(tags.xmp, name))
  const candidates: readonly (readonly [
    TimeSource,
    () => WrittenTime | undefined,
  ])[] = [
    [
      'exif',
      () =>
        exif('DateTimeOriginal', 'SubSecTimeOriginal', 'OffsetTimeOriginal'),
    ],
    ['xmp', () => xmp('DateTimeOriginal')],
    ['xmp', () => xmp('DateCreated')],
    [
      'iptc',
      () =>
        iptcDate(
          textAt(tags.iptc, 'Date Created'),
          textAt(tags.iptc, 'Time Created'),
        ),
    ],
    [
      'digitized',
      () =>
        exif('DateTimeDigitized', 'SubSecTimeDigitized', 'OffsetTimeDigitized'),
    ],
    ['xmp', () => xmp('CreateDate')],
  ]
  for (const [source, read] of candidates) {
    const found = read()
    if (found !== undefined) return { ...found, source }
  }
  return undefined
}

type Tags = {
  readonly exif: unknown
  readonly xmp: unknown
  readonly iptc: unknown
}

/** Packets that programs write have some thousand elements and attributes; common practice, no source. */
const mostMarks = 20_000
const mostCharacters = 32_000_000

/** Reads XMP, unless there is so much in it that the reader would keep everybody waiting. */
const domParser = {
  parseFromString(text: string, type: string) {
    if (
      text.length > mostCharacters ||
      isOften('<', text) ||
      isOften('=', text)
    ) {
      throw new RangeError('more XMP than any program writes')
    }
    return new DOMParser({ onError: onErrorStopParsing }).parseFromString(
      text,
      type,
    )
  },
}

/** Whether a mark stands in a text more often than in what programs write. */
function isOften(mark: string, text: string): boolean {
  let count = 0
  for (
    let at = text.indexOf(mark);
    at !== -1 && count <= mostMarks;
    at = text.indexOf(mark, at + 1)
  ) {
    count += 1
  }
  return count > mostMarks
}

async function tagsOf(source: string | Buffer): Promise<Tags | undefined> {
  try {
    const bytes = typeof source === 'string' ? await readFile(source) : source
    const found = ExifReader.load(bytes, {
      expanded: true,
      // Its own is not found once this is bundled.
      domParser,
    })
    return { exif: found.exif, xmp: found.xmp, iptc: found.iptc }
  } catch {
    // What cannot be read says nothing; the picture itself was found sound.
    return undefined
  }
}

function textAt(group: unknown, name: string): string {
  const tag: unknown = memberOf(group, name)
  const description: unknown = memberOf(tag, 'description')
  return typeof description === 'string' ? description : ''
}

function memberOf(from: unknown, name: string): unknown {
  return typeof from === 'object' && from !== null
    ? Reflect.get(from, name)
    : undefined
}
