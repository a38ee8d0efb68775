/**
 * Every picture that leaves has a text alternative (WCAG 2.2, success criterion 1.1.1): out of the journal, never empty but
 * where the same words stand beside it, and never the name of a file.
 */
import { buffer } from 'node:stream/consumers'
import { afterAll, expect, test } from 'vitest'
import { embedPair } from '#core/portfolio/embed-pair'
import { paperShapes } from '#core/sheets/plan-sheet'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { readPublishedPiece } from '#services/portfolio/published'
import { changePortfolioSettings } from '#services/portfolio/settings'
import { openStaticCopy } from '#services/portfolio/static-copy'
import { readListingJsonLd, readWriteUp } from '#services/write-ups/write-ups'
import { callApi } from '../../support/api'
import { readZip } from '../../support/read-zip'
import { choiceOf, makeShownJob, publishWith } from '../../support/shown-job'
import { makeTelltale } from '../../support/telltale-photo'
import { visit } from '../../support/visit'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

const fileName = /IMG_|DSC|\.(?:jpe?g|webp|png|heic|avif)\b/i

async function publishedJob() {
  const job = await makeShownJob(
    ['IMG_4711.jpg', await makeTelltale(1)],
    ['DSC04712.jpg', await makeTelltale(2)],
  )
  const slug = await publishWith(
    job.id,
    job.pieceId,
    choiceOf(job, { photos: [job.after] }),
  )
  return { ...job, slug }
}

/** The alternatives of all pictures in a page. */
function alternativesIn(html: string): readonly (string | undefined)[] {
  const pictures = html.match(/<img\b[^>]*>/g) ?? []
  return [
    ...pictures.map((tag) => /\salt="([^"]*)"/.exec(tag)?.[1]),
    ...[...html.matchAll(/og:image:alt"\s+content="([^"]*)"/g)].map(
      ([, words]) => words,
    ),
  ]
}

function expectWords(words: string | undefined, where: string) {
  expect(words, where).toBeDefined()
  expect(words?.trim(), where).not.toBe('')
  expect(words, where).not.toMatch(fileName)
  // The piece is the one fact that every picture of it shares.
  expect(words?.toLowerCase(), where).toContain('sideboard')
}

test('every picture of the portfolio, its copy, its feed and a pasted pair has words', async () => {
  const { slug } = await publishedJob()
  const pages = new Map<string, string>()
  for (const address of ['/portfolio', `/portfolio/${slug}`]) {
    pages.set(address, await (await visit(address)).text())
  }
  for (const [name, bytes] of await readZip(
    await buffer(await openStaticCopy()),
  )) {
    if (name.endsWith('.html')) pages.set(name, bytes.toString('utf8'))
  }
  expect(pages.size).toBeGreaterThanOrEqual(4)
  const found = [...pages].flatMap(([where, html]) =>
    alternativesIn(html).map((words) => [words, where] as const),
  )
  // The home page shows one, the piece's page a pair and a photo, and the copy the same again.
  expect(found.length).toBeGreaterThanOrEqual(8)
  for (const [words, where] of found) expectWords(words, where)

  const shown = (await readPublishedPiece(slug))?.shown
  const pair = shown?.pairs[0]
  if (pair === undefined) throw new Error('no pair')
  const pasted = alternativesIn(embedPair(pair, (file) => file))
  expect(pasted).toHaveLength(2)
  for (const words of pasted) expectWords(words, 'a pasted pair')
})

test('every image of the data for search engines has a caption', async () => {
  const { id } = await publishedJob()
  const data = JSON.stringify(await readListingJsonLd(id, now(), 'http://a'))
  const captions = [...data.matchAll(/"caption":"([^"]*)"/g)]
  expect(captions).toHaveLength(data.match(/"ImageObject"/g)?.length ?? 0)
  expect(captions.length).toBeGreaterThan(0)
  for (const [, words] of captions) expectWords(words, 'JSON-LD')
})

test('every photo of the job has its words, also one that nobody placed', async () => {
  const { id } = await publishedJob()
  const db = await database()
  await db.photo.updateMany({
    where: { jobId: id },
    data: { view: null, role: 'progress' },
  })
  const written = await readWriteUp(id, 'photos', now())
  const sentences = written?.paragraphs.flatMap((one) => one.sentences) ?? []
  expect(sentences).toHaveLength(2)
  for (const { text } of sentences) expectWords(text, 'photos')
})

test('the code on a care card is a figure that says where it leads', async () => {
  const { id } = await publishedJob()
  await changePortfolioSettings({
    publicAddress: 'https://alder-yard.example',
    introduction: '',
    contact: '',
  })
  const card = await callApi('GET', `/api/jobs/${id}/write-ups/care.pdf`)
  const pdf = Buffer.from(await card.arrayBuffer()).toString('latin1')
  const words = [...pdf.matchAll(/\/Alt \(((?:[^\\)]|\\.)*)\)/g)]
  expect(pdf.match(/\/S \/Figure/g)).toHaveLength(1)
  expect(words.map(([, one]) => one)).toEqual([
    expect.stringContaining('https://alder-yard.example'),
  ])
})

test.each(Object.keys(paperShapes))(
  'the pictures of a sheet on %s are figures with words',
  async (paper) => {
    const { id } = await publishedJob()
    const sheet = await callApi('GET', `/api/jobs/${id}/sheets/${paper}.pdf`)
    const pdf = Buffer.from(await sheet.arrayBuffer()).toString('latin1')
    expect(pdf).toContain('/Marked true')
    const words = [...pdf.matchAll(/\/Alt \(((?:[^\\)]|\\.)*)\)/g)]
    expect(words.length).toBeGreaterThan(0)
    // One sentence speaks for both halves of a pair.
    expect(pdf.match(/\/S \/Figure/g)).toHaveLength(words.length)
    for (const [, one] of words) expectWords(one, paper)
  },
)
