import { spawnSync } from 'node:child_process'
import { ExifTool } from 'exiftool-vendored'
import { readdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { exifLocal } from '#core/time/exif-local'
import { openDataFolder } from '#services/database/open-database'
import { readOtherDates } from '#services/intake/read-other-dates'
import { openPicture } from '#services/renditions/open-picture'
import { makePhoto } from '../../support/make-photo'
import { readArrivingJpeg } from '../../support/read-arriving-jpeg'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

// It is a Perl program: on most systems Perl is there, and on Windows it brings its own.
const runnable =
  process.platform === 'win32' || spawnSync('perl', ['-v']).status === 0
if (!runnable) process.stderr.write('exiftool: no Perl, so not compared\n')
const exiftool = runnable ? new ExifTool({ maxProcs: 1 }) : undefined
afterAll(async () => {
  await exiftool?.end()
})

function packet(properties: string): string {
  return `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" xmlns:exif="http://ns.adobe.com/exif/1.0/">${properties}</rdf:Description></rdf:RDF></x:xmpmeta>`
}

async function found(xmp: string, exif: Record<string, string> = {}) {
  const { root } = await openDataFolder()
  const file = path.join(root, 'photo.jpg')
  const bytes = await openPicture(await makePhoto())
    .withExif({ IFD2: exif })
    .withXmp(packet(xmp))
    .jpeg()
    .toBuffer()
  writeFileSync(file, bytes)
  return readArrivingJpeg(file)
}

const created = '<xmp:CreateDate>2026-10-22T12:00:00+01:00</xmp:CreateDate>'
const made =
  '<photoshop:DateCreated>2026-10-22T11:00:00+01:00</photoshop:DateCreated>'
const original =
  '<exif:DateTimeOriginal>2026-10-22T10:00:00.5+01:00</exif:DateTimeOriginal>'

describe('a photo without the time of its camera', () => {
  test('has that of the first record which is of its making', async () => {
    expect(await found(created + made + original)).toMatchObject({
      local: '2026-10-22T10:00:00.5',
      offset: '+01:00',
      source: 'xmp',
    })
    expect((await found(created + made)).local).toBe('2026-10-22T11:00:00')
    expect((await found(created)).local).toBe('2026-10-22T12:00:00')
  })

  test('has the time at which it was made digital before that of its file', async () => {
    const exif = { DateTimeDigitized: '2026:10:22 09:30:00' }
    expect(await found(created, exif)).toMatchObject({
      local: '2026-10-22T09:30:00',
      source: 'digitized',
    })
  })

  test('never has that of its last change', async () => {
    const { root } = await openDataFolder()
    const file = path.join(root, 'photo.jpg')
    const bytes = await openPicture(await makePhoto())
      .withExif({ IFD0: { DateTime: '2026:10:22 09:30:00' } })
      .withXmp(packet('<xmp:ModifyDate>2026-10-22T12:00:00Z</xmp:ModifyDate>'))
      .jpeg()
      .toBuffer()
    writeFileSync(file, bytes)
    expect(await readArrivingJpeg(file)).toEqual({})
    expect(await readOtherDates(file)).toBeUndefined()
  })
})

test('the time of its camera comes before any other', async () => {
  const exif = {
    DateTimeOriginal: '2026:10:22 09:02:10',
    OffsetTimeOriginal: '+01:00',
  }
  expect(await found(created + made + original, exif)).toMatchObject({
    local: '2026-10-22T09:02:10',
    source: 'exif',
  })
})

const demo = path.join('prisma', 'demo', 'photos')
const photos = ['job-a', 'job-b'].flatMap((job) =>
  readdirSync(path.join(demo, job)).map((name) => path.join(demo, job, name)),
)

// Three readers of one file: the one in use first, the one that fills in for it, and exiftool 13.50.
test.skipIf(!runnable).each(photos)('all readers agree on %s', async (file) => {
  const ours = await readArrivingJpeg(file)
  const other = await readOtherDates(file)
  const told = await exiftool?.readRaw(file, {
    readArgs: ['-G1', '-ExifIFD:all'],
  })
  const text = (name: string) => {
    const value: unknown = Reflect.get(told ?? {}, `ExifIFD:${name}`)
    return typeof value === 'string' || typeof value === 'number'
      ? String(value)
      : undefined
  }
  const local = exifLocal(
    text('DateTimeOriginal') ?? '',
    text('SubSecTimeOriginal'),
  )
  expect(local).toBeDefined()
  expect(ours.local).toBe(local)
  expect(ours.offset).toBe(text('OffsetTimeOriginal'))
  expect(other).toEqual({
    local,
    source: 'exif',
    ...(ours.offset === undefined ? {} : { offset: ours.offset }),
  })
})
