import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { inflateSync } from 'node:zlib'
import jsQr from 'jsqr'
import { expect, test } from 'vitest'
import { openPicture } from '#services/renditions/open-picture'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { careCardPdf } from '#services/write-ups/care-card-pdf'
import { goldenJobs } from '../../core/write-ups/golden-jobs.ts'
import { alderYard } from '../../core/write-ups/jobs.ts'

const golden = goldenJobs['flaws']
const withReader = spawnSync('pdftotext', ['-v']).status === 0

function card() {
  if (!golden) throw new Error('no job')
  return writeCareCard({
    journal: golden.job,
    now: golden.now,
    settings: alderYard,
  })
}

test('it is tagged, says its language and title, and carries its fonts', async () => {
  const pdf = (await careCardPdf(card(), alderYard)).toString('latin1')
  expect(pdf).toMatch(/^%PDF-1\.7/)
  expect(pdf).toContain('/Marked true')
  expect(pdf).toContain('/Lang (en-GB)')
  for (const tag of ['/S /H1', '/S /H2', '/S /P']) expect(pdf).toContain(tag)
  expect(pdf.match(/\/FontFile2 /g)).toHaveLength(2)
  expect(pdf).not.toMatch(/\/BaseFont \/(Helvetica|Times)/)
  expect(pdf).not.toContain('Exif')
})

test.runIf(withReader)(
  'an independent reader finds all its words, in order',
  async () => {
    const pdf = await careCardPdf(card(), alderYard)
    const read = execFileSync('pdftotext', ['-raw', '-', '-'], {
      input: pdf,
      encoding: 'utf8',
    })
    const words = (text: string) => text.split(/\s+/).filter(Boolean).join(' ')
    expect(words(read)).toBe(words(card().text))
  },
)

test('letters beyond Latin-1 are drawn', async () => {
  const pdf = await careCardPdf(
    { ...card(), title: 'Łódź ½' },
    { ...alderYard, units: 'us' },
  )
  expect(pdf.toString('latin1')).toContain('/MediaBox [0 0 396 612]')
  // The glyphs of a font that lacks a letter would all be its first, ".notdef".
  const shown = [...pdf.toString('latin1').matchAll(/stream\n/g)]
    .map(({ index }) => {
      try {
        return inflateSync(pdf.subarray(index + 7)).toString('latin1')
      } catch {
        return ''
      }
    })
    .find((text) => text.includes('BT'))
  expect(shown).toBeDefined()
  expect(shown).not.toMatch(/<(0000)+>/)
})

const shownAt = 'https://alder-yard.example/work/oak-sideboard-in-deep-teal/'

test('it says where to see how it was made, only where that is out', async () => {
  const withCode = (await careCardPdf(card(), alderYard, { shownAt })).toString(
    'latin1',
  )
  expect(withCode).toContain('/S /Figure')
  expect(
    (await careCardPdf(card(), alderYard)).toString('latin1'),
  ).not.toContain('/S /Figure')
})

test.runIf(withReader)('a phone reads its code', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-card-'))
  try {
    // As it is printed at 150 dots an inch; the code is on the last page.
    const pdf = await careCardPdf(card(), alderYard, { shownAt })
    execFileSync(
      'pdftoppm',
      ['-r', '150', '-png', '-', path.join(folder, 'page')],
      { input: pdf },
    )
    const pages = readdirSync(folder).sort()
    const last = readFileSync(path.join(folder, pages.at(-1) ?? ''))
    const { data, info } = await openPicture(last)
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true })
    const read = jsQr(new Uint8ClampedArray(data), info.width, info.height)
    expect(read?.data).toBe(shownAt)
  } finally {
    rmSync(folder, { recursive: true })
  }
})

test.each(Object.keys(goldenJobs))(
  'the card of %s is one page, with its code and without',
  async (name) => {
    const own = goldenJobs[name]
    if (!own) throw new Error('no job')
    for (const units of ['metric', 'us'] as const) {
      const settings = { ...alderYard, units }
      const written = writeCareCard({
        journal: own.job,
        now: own.now,
        settings,
      })
      for (const shownAt of [undefined, 'https://alder-yard.example/one']) {
        const pdf = await careCardPdf(written, settings, { shownAt })
        expect(
          pdf.toString('latin1').match(/\/Type \/Page\b/g),
          units,
        ).toHaveLength(1)
      }
    }
  },
)

test('what does not fit on one page goes on on the next', async () => {
  const long = card()
  const pdf = await careCardPdf(
    { ...long, paragraphs: Array(6).fill(long.paragraphs).flat() },
    alderYard,
  )
  expect(
    pdf.toString('latin1').match(/\/Type \/Page\b/g)?.length,
  ).toBeGreaterThan(1)
})
