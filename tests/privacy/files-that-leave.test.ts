/**
 * What the files that leave say of themselves, read by ExifTool 13 by Phil Harvey (https://exiftool.org), which needs Perl:
 * how large they are and how they are packed, the credit that the owner set, the title of a document, and nothing else.
 */
import { spawnSync } from 'node:child_process'
import { writeFile } from 'node:fs/promises'
import path from 'node:path'
import { buffer } from 'node:stream/consumers'
import { ExifTool } from 'exiftool-vendored'
import { afterAll, expect, test } from 'vitest'
import { paperShapes, sheetShapes } from '#core/sheets/plan-sheet'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { openDataFolder } from '#services/database/open-database'
import { openStaticCopy } from '#services/portfolio/static-copy'
import { renditionNames } from '#core/photos/rendition-sizes'
import { sheetFormats } from '#services/sheets/make-sheet'
import { hasFfmpeg } from '#services/sheets/has-ffmpeg'
import { changeCredit } from '#services/sheets/sheet-settings'
import { callApi } from '../support/api'
import { readZip } from '../support/read-zip'
import { choiceOf, makeShownJob, publishWith } from '../support/shown-job'
import { makeTelltale } from '../support/telltale-photo'
import { useWorkshop } from '../support/workshop'

useWorkshop()
const runnable =
  process.platform === 'win32' || spawnSync('perl', ['-v']).status === 0
if (!runnable) process.stderr.write('exiftool: no Perl, so not read\n')
const exiftool = new ExifTool({ maxProcs: 1 })
afterAll(async () => {
  await exiftool.end()
  await endAlignmentThread()
})

/** Groups of tags that tell how a file is packed: the reader's own, the file's, what follows from both. */
const packing =
  /^(?:SourceFile$|errors$|warnings$|ExifTool:|System:|File:(?!Comment)|Composite:(?!GPS)|JFIF:|RIFF:(?!Exif|XMP)|PNG:(?:Image(?:Width|Height)|BitDepth|ColorType|Compression|Filter|Interlace)$|PNG-pHYs:|PDF:(?:PDFVersion|Linearized|PageCount|Language|TaggedPDF|Title)$)/
/** The same of a video. Its dates are not among them: they must be empty. */
const videoPacking =
  /^(?:QuickTime|Track1):(?:.*(?:Brands?|Version|TimeScale|Duration|Preferred\w+|MatrixStructure|Time|TrackID|MediaData\w+|TrackLayer|TrackVolume|ImageWidth|ImageHeight|LanguageCode|GraphicsMode|OpColor|CompressorID|CompressorName|[XY]Resolution|BitDepth|Bitrate|BufferSize|FrameRate|Handler\w+))$/
const credits = /:(?:Creator|Credit|Rights|Copyright|Artist|Author)$/

/** Every file that is made to leave, by its name. */
async function filesThatLeave(): Promise<ReadonlyMap<string, Buffer>> {
  const job = await makeShownJob(
    ['before.jpg', await makeTelltale(1)],
    ['after.jpg', await makeTelltale(2)],
  )
  const pictures = Object.keys(sheetShapes).flatMap((shape) =>
    Object.keys(sheetFormats).map((format) => `${shape}.${format}`),
  )
  const others = [
    ...Object.keys(paperShapes).map((paper) => `${paper}.pdf`),
    '1x1-reveal.webp',
    ...((await hasFfmpeg()) ? ['1x1-reveal.mp4'] : []),
  ]
  const files = new Map<string, Buffer>()
  const addresses = [
    ...[...pictures, ...others].map((file) => `sheets/${file}`),
    'write-ups/care.pdf',
  ]
  for (const address of addresses) {
    const answer = await callApi('GET', `/api/jobs/${job.id}/${address}`)
    expect(answer.status, address).toBe(200)
    files.set(address, Buffer.from(await answer.arrayBuffer()))
  }
  await publishWith(
    job.id,
    job.pieceId,
    choiceOf(job, { pairs: [], photos: [job.after] }),
  )
  const copy = await readZip(await buffer(await openStaticCopy()))
  const shown = [...copy].filter(([name]) => /\.(?:webp|jpg)$/.test(name))
  expect(shown.length).toBeGreaterThan(1)
  for (const [name, bytes] of shown) files.set(`portfolio/${name}`, bytes)
  // Shown to the owner alone, and still without a word.
  for (const rendition of renditionNames) {
    const answer = await callApi('GET', `/api/photos/${job.after}/${rendition}`)
    files.set(`rendition.${rendition}`, Buffer.from(await answer.arrayBuffer()))
  }
  return files
}

/** All that a file says but how it is packed. */
async function saidBy(name: string, bytes: Buffer) {
  const { root } = await openDataFolder()
  const file = path.join(root, name.replaceAll('/', '-'))
  await writeFile(file, bytes)
  const tags: Record<string, unknown> = await exiftool.readRaw(file, {
    readArgs: ['-G1', '-a', '-charset', 'utf8'],
  })
  expect(tags['errors'], name).toEqual([])
  return Object.entries(tags).filter(
    ([tag, value]) =>
      !packing.test(tag) && !videoPacking.test(tag) && !isEmptyDate(value),
  )
}

function isEmptyDate(value: unknown): boolean {
  return value === '0000:00:00 00:00:00'
}

test.runIf(runnable)(
  'they say nothing while the owner set no credit',
  async () => {
    for (const [name, bytes] of await filesThatLeave()) {
      expect(await saidBy(name, bytes), name).toEqual([])
    }
  },
)

test.runIf(runnable)(
  'they name whom the owner credits, in any script, and say nothing else',
  async () => {
    const credit = 'Łucja & Söhne 工房'
    await changeCredit(credit)
    for (const [name, bytes] of await filesThatLeave()) {
      const said = await saidBy(name, bytes)
      expect(
        said.map(([tag]) => tag).filter((tag) => !credits.test(tag)),
        name,
      ).toEqual([])
      for (const [tag, value] of said) {
        expect([credit, `© ${credit}`], `${name} ${tag}`).toContain(value)
      }
      const names = said.filter(([tag]) =>
        /:(?:Creator|Artist|Author)$/.test(tag),
      )
      expect(names.length > 0, name).toBe(!name.startsWith('rendition'))
    }
    await changeCredit(' ')
    const after = await filesThatLeave()
    const sheet = after.get('sheets/1x1.jpg') ?? Buffer.alloc(0)
    expect(await saidBy('1x1.jpg', sheet)).toEqual([])
  },
)

test.runIf(runnable)('an original would be seen to say it all', async () => {
  const said = await saidBy('original.jpg', await makeTelltale(1))
  const tags = said.map(([tag]) => tag)
  for (const tag of [
    'GPS:GPSLatitude',
    'IFD0:Artist',
    'ExifIFD:SerialNumber',
    'IPTC:By-line',
    'XMP-photoshop:City',
  ]) {
    expect(tags).toContain(tag)
  }
})
