import ExifReader from 'exifreader'
import { describe, expect, test } from 'vitest'
import { paperShapes, sheetShapes } from '#core/sheets/plan-sheet'
import { addCost } from '#services/money/books'
import { newCost } from '#services/money/schema'
import { openPicture } from '#services/renditions/open-picture'
import { openApiDocument } from '#services/openapi/document'
import { renditionNames } from '#core/photos/rendition-sizes'
import { sheetFormats } from '#services/sheets/make-sheet'
import { callApi, routes } from '../support/api'
import { shelve, startJob, writeStep } from '../support/api-job'
import { arrival, sendPhotos } from '../support/send-photos'
import { accepted } from '../support/shown-job'
import { makeTelltale, secrets } from '../support/telltale-photo'
import { useWorkshop } from '../support/workshop'

useWorkshop()

/** Forms in which a reader of metadata, or of bytes, would know what must not leave. */
const telltales: readonly (string | RegExp)[] = [
  ...Object.values(secrets),
  // The position in degrees, minutes and seconds, and rounded.
  /51[^\d]{1,6}25[^\d]{1,6}54/,
  /51\.43|0\.287/,
  /\bExif\0\0|x:xmpmeta|Photoshop 3\.0|JFXX|EXIF|XMP /,
]

/** A cost like no other. */
const cost = { words: 'paid to Mrs Vane in coins', minor: 8_675_309 } as const
const costTold = new RegExp(`${cost.words}|${cost.minor}|86[,. ]?753`)

async function job() {
  const made = await startJob(['body'])
  const product = await shelve({ recoatMinutes: 120 })
  const before = await sendPhotos(
    made.id,
    [['before.jpg', await makeTelltale(1)]],
    [
      ['role', 'before'],
      ['view', 'front'],
    ],
  )
  const after = await sendPhotos(
    made.id,
    [['after.jpg', await makeTelltale(2)]],
    [
      ['role', 'after'],
      ['view', 'front'],
    ],
  )
  const photos = [...before.photos, ...after.photos]
  // What it cost is told at one address, which is the owner's alone.
  accepted(
    await addCost(
      made.id,
      newCost.parse({
        kind: 'acquisition',
        words: cost.words,
        eachMinor: cost.minor,
      }),
      arrival,
    ),
  )
  const step = await writeStep(made, {
    kind: 'coat',
    surfaces: [made.surface('body')],
    product,
  })
  return { id: made.id, product, step, photos }
}

type Job = Awaited<ReturnType<typeof job>>

/** Every address that answers a question, with everything that can be asked of it, but for the originals themselves. */
function addresses({ id, product, step, photos }: Job): readonly string[] {
  const renditions: readonly string[] = renditionNames
  const sheets = Object.keys(sheetShapes).flatMap((shape) =>
    Object.keys(sheetFormats).map((format) => `${shape}.${format}`),
  )
  const papers = Object.keys(paperShapes).map((paper) => `${paper}.pdf`)
  const values: Readonly<Record<string, readonly string[]>> = {
    '[job]': [id],
    '[product]': [product],
    '[step]': [step],
    '[photo]': photos.map((photo) => photo.id),
    '[rendition]': renditions,
    '[file]': [...sheets, ...papers].map(
      (file) => `${file}?design=workshop-card&elements=title,workshop,mark`,
    ),
  }
  return routes
    .filter(({ template }) => isRead(template) && !notHere.includes(template))
    .flatMap(({ segments }) =>
      segments.reduce<readonly string[]>(
        (paths, segment) =>
          paths.flatMap((path) =>
            (values[segment] ?? [segment]).map((value) => `${path}/${value}`),
          ),
        ['/api'],
      ),
    )
}

/** Whether an address answers a question at all; some only take. */
function isRead(template: string): boolean {
  return openApiDocument().paths?.[template]?.get !== undefined
}

/**
 * The first shows only photos which can be aligned: its pictures are looked into in tests/services/pairs/pairs.test.ts.
 * The second tells of such a pair three numbers or why there are none, and the last is the owner's whole journal, with
 * every original as it came.
 */
const notHere = [
  '/api/jobs/{job}/pairs/{pair}/{side}',
  '/api/jobs/{job}/pairs/{pair}/light',
  '/api/backup',
]

function toldBy(bytes: Buffer): readonly string[] {
  const text = bytes.toString('latin1')
  return telltales
    .filter((one) =>
      typeof one === 'string' ? text.includes(one) : one.test(text),
    )
    .map(String)
}

describe('what leaves the program', () => {
  test('says nothing of its owner, at any address', async () => {
    const made = await job()
    const mark = new FormData()
    mark.append(
      'file',
      new Blob([new Uint8Array(await makeTelltale(3))]),
      'mark.jpg',
    )
    await callApi('POST', '/api/workshop/mark', { body: mark })
    const asked = addresses(made)
    // Six renditions, six sheets, and the rest.
    expect(asked.length).toBeGreaterThan(20)
    for (const address of asked) {
      const answer = await callApi('GET', address)
      expect(answer.status, address).toBe(200)
      const bytes = Buffer.from(await answer.arrayBuffer())
      expect(bytes.byteLength).toBeGreaterThan(0)
      expect(toldBy(bytes), address).toEqual([])
      expect(costTold.test(bytes.toString('latin1')), address).toBe(
        address.endsWith('/money'),
      )
      if (!answer.headers.get('content-type')?.startsWith('image/')) continue
      const found = await openPicture(bytes).metadata()
      expect(found.exif ?? found.xmp ?? found.iptc, address).toBeUndefined()
      const read = ExifReader.load(bytes, { expanded: true })
      expect(read.exif ?? read.gps ?? read.xmp ?? read.iptc).toBeUndefined()
    }
    // Every address there is, and some of them draw or decode.
  })

  test('would be seen to: an original says all of it', async () => {
    const made = await job()
    const id = made.photos[0]?.id ?? ''
    const answer = await callApi('GET', `/api/photos/${id}/original`)
    const told = toldBy(Buffer.from(await answer.arrayBuffer()))
    for (const secret of Object.values(secrets)) expect(told).toContain(secret)
    const read = ExifReader.load(await makeTelltale(1), { expanded: true })
    expect(read.gps?.Latitude).toBeCloseTo(51.4317, 3)
  })
})
