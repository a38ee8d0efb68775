/**
 * Capture times by three readers that know nothing of each other: ours (on exifr), ExifReader, and ExifTool 13 by Phil
 * Harvey (https://exiftool.org), which needs Perl. Over the demo's own photos.
 */
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import ExifReader from 'exifreader'
import { ExifTool } from 'exiftool-vendored'
import { afterAll, describe, expect, test } from 'vitest'
import { readArrivingJpeg } from '../support/read-arriving-jpeg'

const folder = path.join('prisma', 'demo', 'photos')
const files = readdirSync(folder, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.jpg'))
  .sort()
const hasPerl = spawnSync('perl', ['-v']).status === 0

const exiftool = new ExifTool({ maxProcs: 1 })
afterAll(() => exiftool.end())

/** `2026:10:22 09:02:10` with its fraction, as Exif writes it, in the form that ours gives. */
function asLocal(date: string, fraction: string | undefined): string {
  const [day = '', time = ''] = date.split(' ')
  const local = `${day.replaceAll(':', '-')}T${time}`
  return fraction === undefined ? local : `${local}.${fraction.trim()}`
}

/** The same moment, whatever the number of digits after the second. */
function seconds(local: string | undefined): number {
  return Date.parse(`${local ?? ''}Z`)
}

describe('the capture time and the offset of each demo photo are the same', () => {
  test('by ExifReader', async () => {
    expect(files).toHaveLength(44)
    for (const name of files) {
      const file = path.join(folder, name)
      const ours = await readArrivingJpeg(file)
      const tags = ExifReader.load(await readFile(file))
      const date = tags['DateTimeOriginal']?.description
      expect(seconds(ours.local), name).toBe(
        seconds(asLocal(String(date), tags['SubSecTimeOriginal']?.description)),
      )
      expect(ours.offset, name).toBe(tags['OffsetTimeOriginal']?.description)
    }
  })

  test.skipIf(!hasPerl)(
    'by ExifTool',
    async () => {
      for (const name of files) {
        const file = path.join(folder, name)
        const ours = await readArrivingJpeg(file)
        const tags = await exiftool.readRaw(file, {
          readArgs: ['-json', '-n', '-ExifIFD:all'],
        })
        const text = (tag: string): string | undefined => {
          const value: unknown = Reflect.get(tags, tag)
          return typeof value === 'string' || typeof value === 'number'
            ? String(value)
            : undefined
        }
        expect(seconds(ours.local), name).toBe(
          seconds(
            asLocal(text('DateTimeOriginal') ?? '', text('SubSecTimeOriginal')),
          ),
        )
        expect(ours.offset, name).toBe(text('OffsetTimeOriginal'))
      }
    },
    120_000,
  )
})
