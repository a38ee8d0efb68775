import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { deflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { openDataFolder } from '#services/database/open-database'
import type { PictureKind } from '#services/intake/content-kind'
import { readMetadata } from '#services/intake/read-metadata'
import { openPicture } from '#services/renditions/open-picture'
import {
  type MadeFormat,
  type MadePhoto,
  makePhoto,
} from '../../support/make-photo'
import { readArrivingJpeg } from '../../support/read-arriving-jpeg'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function metadataOf(photo: MadePhoto, kind: MadeFormat = 'jpeg') {
  return metadataOfBytes(await makePhoto(photo, kind), kind)
}

async function metadataOfBytes(bytes: Uint8Array, kind: PictureKind) {
  const { root } = await openDataFolder()
  const file = path.join(root, `photo.${kind}`)
  writeFileSync(file, bytes)
  return kind === 'jpeg' ? readArrivingJpeg(file) : readMetadata(file, kind)
}

const stamped: MadePhoto = {
  taken: '2026:10:22 09:02:10',
  subSeconds: '041',
  offset: '+01:00',
  make: 'Alder',
  model: 'Phone A',
  serial: 'A-0001',
}

describe('what a photo says of itself', () => {
  test.each(['jpeg', 'png', 'webp', 'avif'] as const)(
    'is read from %s',
    async (kind) => {
      expect(await metadataOf(stamped, kind)).toEqual({
        local: '2026-10-22T09:02:10.041',
        offset: '+01:00',
        source: 'exif',
        camera: { make: 'Alder', model: 'Phone A', serial: 'A-0001' },
      })
    },
  )

  test.each(['jpeg', 'png', 'webp', 'tiff', 'avif'] as const)(
    'is nothing in a bare %s',
    async (kind) => {
      expect(await metadataOf({}, kind)).toEqual({})
    },
  )

  test('is a satellite fix, though it says nothing else', async () => {
    expect(
      await metadataOf({ satellite: ['2026:10:22', '8/1 2/1 9/1'] }),
    ).toEqual({ satelliteAt: Date.parse('2026-10-22T08:02:09Z') })
  })

  test.each([
    ['zTXt', 'exif'],
    ['tEXt', 'exif'],
    ['zTXt', 'APP1'],
  ])('is found in a PNG that keeps it as text: %s, %s', async (kind, name) => {
    // The form of older programs: keyword, then a name, the number of bytes and their hexadecimal digits.
    const withExif = await makePhoto(stamped)
    const block = (await openPicture(withExif).metadata()).exif
    const hex = Buffer.from(block ?? []).toString('hex')
    const text = Buffer.from(
      `\nexif\n    ${hex.length / 2}\n${hex.replaceAll(/(.{72})/g, '$1\n')}\nrubbish`,
    )
    const chunk = pngChunk(
      kind,
      Buffer.concat([
        Buffer.from(`Raw profile type ${name}\0`, 'latin1'),
        ...(kind === 'zTXt' ? [Buffer.alloc(1), deflateSync(text)] : [text]),
      ]),
    )
    const plain = await makePhoto({}, 'png')
    const bytes = Buffer.concat([
      plain.subarray(0, 33),
      chunk,
      plain.subarray(33),
    ])
    expect((await metadataOfBytes(bytes, 'png')).local).toBe(
      '2026-10-22T09:02:10.041',
    )
  })

  test('is not the offset of a later change of the file', async () => {
    const found = await metadataOf({
      taken: '2026:10:22 09:02:10',
      changeOffset: '-05:00',
    })
    expect(found).toEqual({ local: '2026-10-22T09:02:10', source: 'exif' })
  })

  test.each([
    ['0000:00:00 00:00:00'],
    ['    :  :     :  :  '],
    ['2026:02:30 10:00:00'],
    ['1970:01:01 00:00:00'],
  ])('is no time when the camera wrote %j', async (taken) => {
    expect(await metadataOf({ taken, offset: '+01:00' })).toEqual({})
  })

  test('is satellite time when date and time of the fix are there', async () => {
    const found = await metadataOf({
      taken: '2026:10:22 09:02:10',
      satellite: ['2026:10:22', '8/1 2/1 95/10'],
      place: ['51/1 30/1 0/1', '0/1 7/1 0/1'],
    })
    expect(found.satelliteAt).toBe(Date.parse('2026-10-22T08:02:09.500Z'))
  })

  test('is no satellite time when its place was blanked out', async () => {
    const found = await metadataOf({
      taken: '2026:10:22 09:02:10',
      satellite: ['2026:10:22', '0/1 0/1 0/1'],
      place: ['0/1 0/1 0/1', '0/1 0/1 0/1'],
    })
    expect(found).toEqual({ local: '2026-10-22T09:02:10', source: 'exif' })
  })

  test('is the same whatever the zone of the machine', async () => {
    const before = process.env['TZ']
    const found = []
    for (const zone of ['UTC', 'Pacific/Chatham', 'America/St_Johns']) {
      process.env['TZ'] = zone
      found.push(await metadataOf(stamped))
    }
    process.env['TZ'] = before
    expect(new Set(found.map((one) => JSON.stringify(one))).size).toBe(1)
  })
})

/** A JPEG with a packet of XMP in its first segments, its extension behind it (ISO 16684-3, 1.1.3.1). */
async function withXmp(packet: string, extension: string): Promise<Buffer> {
  const photo = await makePhoto()
  const id = '0123456789ABCDEF0123456789ABCDEF'
  const segment = (body: Buffer) => {
    const head = Buffer.from([0xff, 0xe1, 0, 0])
    head.writeUInt16BE(body.byteLength + 2, 2)
    return Buffer.concat([head, body])
  }
  const whole = Buffer.from(extension)
  const parts: Buffer[] = []
  for (let at = 0; at < whole.byteLength; at += 65_000) {
    const place = Buffer.alloc(8)
    place.writeUInt32BE(whole.byteLength, 0)
    place.writeUInt32BE(at, 4)
    const head = `http://ns.adobe.com/xmp/extension/\0${id}`
    const part = whole.subarray(at, at + 65_000)
    parts.push(segment(Buffer.concat([Buffer.from(head), place, part])))
  }
  const named = packet.replace('ID', id)
  return Buffer.concat([
    photo.subarray(0, 2),
    segment(Buffer.from(`http://ns.adobe.com/xap/1.0/\0${named}`)),
    ...parts,
    photo.subarray(2),
  ])
}

const xmp = (inside: string) =>
  `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" xmlns:xmpNote="http://ns.adobe.com/xmp/note/" xmlns:n="n:n" ${inside}</rdf:Description></rdf:RDF></x:xmpmeta>`

describe('XMP that goes on in other segments', () => {
  const packet = xmp('xmpNote:HasExtendedXMP="ID">')

  test('is read to its end', async () => {
    const extension = xmp(
      `n:long="${'x'.repeat(200_000)}" exif:DateTimeOriginal="2026-10-22T09:02:10">`,
    )
    const bytes = await withXmp(packet, extension)
    expect(await metadataOfBytes(bytes, 'jpeg')).toEqual({
      local: '2026-10-22T09:02:10',
      source: 'xmp',
    })
  })

  test.each([
    ['as much as programs write', 5000, '2026-10-22T09:02:10'],
    ['more, for which everybody would wait,', 30_000, undefined],
  ])('and holds %s is read or left', async (_what, elements, local) => {
    const inside = `exif:DateTimeOriginal="2026-10-22T09:02:10">${'<n:a>x</n:a>'.repeat(elements)}`
    const bytes = await withXmp(packet, xmp(inside))
    expect((await metadataOfBytes(bytes, 'jpeg')).local).toBe(local)
  })
})

/** A chunk of a PNG; its checksum is left blank, since the reader under test does not look at it. */
function pngChunk(kind: string, data: Buffer): Buffer {
  const length = Buffer.alloc(4)
  length.writeUInt32BE(data.byteLength)
  return Buffer.concat([
    length,
    Buffer.from(kind, 'latin1'),
    data,
    Buffer.alloc(4),
  ])
}
