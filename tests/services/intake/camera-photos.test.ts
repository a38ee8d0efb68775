import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { z } from 'zod'
import { exifOffset } from '#core/time/exif-offset'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import type { RejectedFile } from '#services/intake/keep-photos'
import type { KeptPhoto } from '#services/intake/record-photo'
import { openPicture } from '#services/renditions/open-picture'
import { readRendition } from '#services/renditions/renditions'
import { makeJob } from '../../support/make-job'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

// Files of real cameras, kept outside this repository because they hold real places: expected.json says of each what
// exiftool 12.57 reads in it and what should become of it.
const folder =
  process.env['COATBOOK_CAMERA_PHOTOS'] ??
  path.join('..', 'shared', 'camera-photos')
const list = path.join(folder, 'expected.json')
const present = existsSync(list)

const text = z.string().nullish()
const pixels = z.number().nullish()
const expectedFile = z.object({
  file: z.string(),
  mimeType: text,
  dateTimeOriginal: text,
  offsetTimeOriginal: text,
  subSec: text,
  otherDates: z.record(z.string(), z.string()),
  timeEvidence: z.string(),
  instantUtc: text,
  offsetFromGps: text,
  widthUpright: pixels,
  heightUpright: pixels,
  expect: z.enum(['accept', 'accept-with-warning', 'either']).optional(),
  bad: z
    .object({ action: z.enum(['reject', 'accept-with-warning', 'either']) })
    .optional(),
})
type Expected = z.infer<typeof expectedFile>

const files: readonly Expected[] = present
  ? z
      .object({ files: z.array(expectedFile) })
      .parse(JSON.parse(readFileSync(list, 'utf8'))).files
  : []

/** What exiftool reads, in the form in which it is kept: local time, fraction to the millisecond, offset. */
function exiftoolTime(file: Expected): {
  local: string
  offset: string | null
} {
  const [date = '', time = ''] = (file.dateTimeOriginal ?? '').split(' ')
  const fraction = /^\d+/.exec(file.subSec ?? '')?.[0].slice(0, 3)
  const offset = (file.offsetTimeOriginal ?? '').trim()
  return {
    local: `${date.replaceAll(':', '-')}T${time}${fraction === undefined ? '' : `.${fraction}`}`,
    offset: exifOffset(offset) === undefined ? null : offset,
  }
}

/** The dates that exiftool finds outside Exif, as instants read with their offset or, without one, as UTC. */
function otherTimes(file: Expected): readonly string[] {
  const { otherDates } = file
  const iptc = `${otherDates['IPTC:DateCreated'] ?? ''} ${otherDates['IPTC:TimeCreated'] ?? ''}`
  return [...Object.values(otherDates), iptc]
    .map((value) => {
      const parts = /^(\d{4}):(\d\d):(\d\d) ([\d:]{8})(\.\d{1,3})?\d*([+-].*)?$/
      return value.replace(parts, '$1-$2-$3T$4$5 $6')
    })
    .filter((value) => value.includes('T'))
}

const counts = { kept: 0, turnedAway: 0, dated: 0, undated: 0, upright: 0 }
afterAll(() => {
  const said = present
    ? `camera photos: ${files.length} files, ${counts.kept} kept, ${counts.turnedAway} turned away, ${counts.dated} with exiftool's capture time, ${counts.undated} without a time that exiftool finds, ${counts.upright} of the right upright size\n`
    : `camera photos: none in ${folder}, so nothing was compared\n`
  process.stderr.write(said)
})

useWorkshop()

async function send(
  file: Expected,
): Promise<{ photo?: KeptPhoto; rejected?: RejectedFile }> {
  const job = await makeJob()
  const bytes = readFileSync(path.join(folder, file.file))
  const { photos, rejected } = await sendPhotos(
    job.id,
    [[path.basename(file.file), bytes]],
    [],
    instant(Date.parse('2026-11-25T12:00:00Z')),
  )
  if (photos[0] === undefined) {
    counts.turnedAway += 1
    return rejected[0] === undefined ? {} : { rejected: rejected[0] }
  }
  counts.kept += 1
  return { photo: photos[0] }
}

describe.skipIf(!present)('of the photos of real cameras', () => {
  test.each(files.map((file) => [file.file, file] as const))(
    '%s is dealt with as it should be',
    async (_name, file) => {
      const { photo, rejected } = await send(file)
      const wanted = file.bad?.action ?? file.expect ?? 'accept'
      if (wanted === 'reject') expect(rejected?.reason).toMatch(/\w.*\./)
      if (photo === undefined) {
        expect(['reject', 'either']).toContain(wanted)
        return
      }
      expect(wanted).not.toBe('reject')
      // Of one family of files, named by their brand or by how the picture in them is coded.
      expect(photo.mediaType.replace('heif', 'heic')).toBe(
        file.mimeType?.replace('heif', 'heic'),
      )
      if (wanted === 'accept-with-warning' && file.bad === undefined) {
        expect(photo.warnings.join()).not.toBe('')
      }
      if (wanted !== 'either') {
        expect([photo.width, photo.height]).toEqual([
          file.widthUpright,
          file.heightUpright,
        ])
        const made = await readRendition(photo.sha256, 'thumb')
        if (!made.ok) throw new Error(made.refusal.detail)
        const { width, height } = await openPicture(made.value.path).metadata()
        expect(width > height).toBe(photo.width > photo.height)
        counts.upright += 1
      }
      await expectTime(file, photo)
    },
  )
})

async function expectTime(file: Expected, photo: KeptPhoto): Promise<void> {
  const row = await (
    await database()
  ).photo.findUniqueOrThrow({ where: { id: photo.id } })
  const found = { local: row.exifLocal, offset: row.exifOffset }
  switch (file.timeEvidence) {
    case 'exif-offset':
      expect(found).toEqual(exiftoolTime(file))
      expect(photo.basis).toBe('offset')
      expect(new Date(photo.taken.at).toISOString()).toBe(file.instantUtc)
      break
    case 'exif-local-and-gps':
      expect(found).toEqual(exiftoolTime(file))
      expect(photo.basis).toBe('gps')
      expect(photo.taken.at).toBe(
        Math.floor(
          Date.parse(`${found.local ?? ''}${file.offsetFromGps ?? ''}`),
        ),
      )
      break
    case 'exif-local':
      expect(found).toEqual(exiftoolTime(file))
      expect(photo.basis).toBe('zone')
      break
    case 'xmp':
    case 'iptc':
      expect(otherTimes(file)).toContain(
        `${found.local ?? ''} ${found.offset ?? ''}`,
      )
      break
    case 'maker-data':
      // A thermal camera's own block, which no reader in use here knows: the owner is asked for the time.
      expect(photo.warnings.join()).toContain('Capture time')
      counts.undated += 1
      return
    default:
      return
  }
  counts.dated += 1
}
