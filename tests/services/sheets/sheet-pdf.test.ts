import { execFileSync, spawnSync } from 'node:child_process'
import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { openSync } from 'fontkit'
import { beforeEach, expect, test } from 'vitest'
import { paperShapes } from '#core/sheets/plan-sheet'
import {
  type SheetDesign,
  sheetDesigns,
  sheetElements,
} from '#core/sheets/sheet-design'
import { newPicture } from '#services/renditions/open-picture'
import { makePaperSheet } from '#services/sheets/make-paper-sheet'
import { laySheet } from '#services/sheets/lay-sheet'
import { openSheetPage } from '#services/sheets/sheet-pdf'
import { pictureTypesetter } from '#services/sheets/text-picture'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
const withReader = spawnSync('pdftotext', ['-v']).status === 0

function textOf(pdf: Buffer): string {
  return execFileSync('pdftotext', ['-raw', '-', '-'], {
    input: pdf,
    encoding: 'utf8',
  })
}

const size = { width: 1200, height: 900 }
let grey = Buffer.alloc(0)
beforeEach(async () => {
  grey = await newPicture({
    create: { ...size, channels: 3, background: '#888888' },
  })
    .jpeg()
    .toBuffer()
})

async function drawn(
  title: string,
  design: SheetDesign = 'quiet',
): Promise<Buffer> {
  const page = openSheetPage({
    size: paperShapes.letter,
    title,
    alternatives: ['Oak sideboard, front: painted teal.', ''],
    credit: 'Alder Yard',
    pictures: pictureTypesetter(),
  })
  const laid = await laySheet({
    shape: 'letter',
    look: { design, ground: 'light', elements: ['title'] },
    pictures: { kind: 'pairs', pairs: [[size, size]] },
    captions: ['Before', 'After'],
    words: { title },
    typesetter: page.typesetter,
    grey: () =>
      Promise.resolve({ width: 1, height: 1, data: new Uint8Array(1) }),
  })
  return page.write(laid, [grey, grey])
}

test('the sheet of a job is one tagged page of its paper, with its fonts and no trace of the camera', async () => {
  const job = await makeJob('Oak sideboard')
  for (const [role, file] of [
    ['before', '01-before-front.jpg'],
    ['after', '30-after-front.jpg'],
  ] as const) {
    await sendPhotos(
      job.id,
      [[file, readFileSync(path.join('prisma/demo/photos/job-a', file))]],
      [
        ['role', role],
        ['view', 'front'],
      ],
    )
  }
  const made = await makePaperSheet(job.id, 'a4')
  if (!made.ok) throw new Error(made.refusal.detail)
  expect(made.value).toMatchObject({
    mediaType: 'application/pdf',
    fileName: 'oak-sideboard-a4-quiet.pdf',
  })
  const pdf = made.value.bytes.toString('latin1')
  // ISO 216 A4 is 595.28 x 841.89 points; whole pixels at 300 dots an inch come within a quarter of a point.
  const [, width = '', height = ''] =
    /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? []
  expect(Math.abs(Number(width) - 595.28)).toBeLessThan(0.25)
  expect(Math.abs(Number(height) - 841.89)).toBeLessThan(0.25)
  expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(1)
  expect(pdf).toContain('/Marked true')
  for (const tag of ['/S /H1', '/S /Figure', '/S /P', '/Alt (']) {
    expect(pdf).toContain(tag)
  }
  expect(pdf.match(/\/FontFile2 /g)).toHaveLength(2)
  expect(pdf).not.toMatch(/\/BaseFont \/(Helvetica|Times)/)
  expect(pdf).not.toContain('Exif')
})

test.each([
  ['quiet', ['LibreFranklin-Medium', 'SourceSerif4-Regular']],
  ['bold', ['LibreFranklin-ExtraBold', 'LibreFranklin-Medium']],
  ['workshop-card', ['LibreFranklin-Medium', 'SourceSerif4-Regular']],
] as const)(
  'the fonts embedded in a PDF of the design %s are those shipped, by their own names, and no other',
  async (design, expected) => {
    const pdf = (await drawn('Oak sideboard', design)).toString('latin1')
    // ISO 32000-1, 9.6.4: a subset has six letters and a plus before its font's name.
    const names = [...pdf.matchAll(/\/FontName \/([A-Z]{6}\+)?([\w-]+)/g)].map(
      ([, subset, name]) => (subset === undefined ? 'not embedded' : name),
    )
    expect([...new Set(names)].toSorted()).toEqual(expected)
    const shipped = readdirSync('lib/services/sheets/fonts')
      .filter((file) => file.endsWith('.ttf'))
      .map((file) => {
        const font = openSync(path.join('lib/services/sheets/fonts', file))
        return 'postscriptName' in font ? font.postscriptName : ''
      })
    for (const name of expected) expect(shipped).toContain(name)
  },
)

test('the text alternative is in the file', async () => {
  expect((await drawn('Oak sideboard')).toString('latin1')).toContain(
    '/Alt (Oak sideboard, front: painted teal.)',
  )
})

test
  .runIf(withReader)
  .each([
    ['Oak sideboard'],
    ['Łódź ½ café, Комод, Σερβάν'],
    ['Cheap & cheerful <b>"pine"</b> chest'],
  ])('an independent reader finds the words of %j', async (title) => {
  const words = textOf(await drawn(title))
    .split(/\s+/)
    .filter(Boolean)
  expect(words.join(' ')).toBe(`${title} Before After`)
})

test.runIf(withReader)(
  'a long title ends in an ellipsis, on the one page',
  async () => {
    const pdf = await drawn('A very long title about drawers. '.repeat(30))
    expect(textOf(pdf)).toContain('…')
    expect(pdf.toString('latin1').match(/\/Type \/Page\b/g)).toHaveLength(1)
  },
)

test('a title in a script that the fonts lack is drawn, and its words can still be read aloud', async () => {
  const pdf = (await drawn('食器棚')).toString('latin1')
  const utf16 = Buffer.from('\ufeff食器棚', 'utf16le').swap16()
  expect(pdf).toContain(`/ActualText (${utf16.toString('latin1')})`)
  // The two photos, the title, and the title's clear ground.
  expect(pdf.match(/\/Subtype \/Image/g)).toHaveLength(4)
})

test.runIf(withReader).each(sheetDesigns)(
  'the words of a sheet in the design %s are text',
  async (design) => {
    const job = await makeJob('Oak sideboard')
    for (const role of ['before', 'after']) {
      await sendPhotos(
        job.id,
        [
          [
            `${role}.jpg`,
            await makePhoto({
              width: role === 'after' ? 640 : 800,
              height: 600,
            }),
          ],
        ],
        [
          ['role', role],
          ['view', 'front'],
        ],
      )
    }
    const made = await makePaperSheet(job.id, 'letter', {
      design,
      ground: 'dark',
      elements: sheetElements,
    })
    if (!made.ok) throw new Error(made.refusal.detail)
    const words = textOf(made.value.bytes)
    for (const word of ['Oak sideboard', 'Before', 'After', 'My workshop']) {
      expect(words).toContain(word)
    }
  },
)
