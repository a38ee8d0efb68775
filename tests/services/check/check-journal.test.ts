import { appendFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { checkJournal } from '#services/check/check-journal'
import { database, openDataFolder } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { turnPhoto } from '#services/photos/turn-photo'
import { readRendition, renditionsIdle } from '#services/renditions/renditions'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function keepThree() {
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [
    ['a.jpg', await makePhoto({ width: 61 })],
    ['b.jpg', await makePhoto({ width: 62 })],
    ['c.jpg', await makePhoto({ width: 63 })],
  ])
  await renditionsIdle()
  const [a, b, c] = photos
  if (a === undefined || b === undefined || c === undefined) {
    throw new Error('a photo was not kept')
  }
  return { a, b, c }
}

async function pathOf(sha256: string): Promise<string> {
  return (await openPhotoStore()).path(sha256)
}

async function thumbOf(sha256: string): Promise<string> {
  const made = await readRendition(sha256, 'thumb')
  if (!made.ok) throw new Error(made.refusal.detail)
  return made.value.path
}

describe('a check of the journal', () => {
  test('finds nothing where all is as it was kept', async () => {
    await keepThree()
    expect(await checkJournal()).toMatchObject({
      originals: 3,
      photos: 3,
      renditionsMade: 0,
      renditionsRemoved: 0,
      findings: [],
    })
  })

  test('names the photo whose original is missing or has other bytes', async () => {
    const { a, b } = await keepThree()
    rmSync(await pathOf(a.sha256))
    appendFileSync(await pathOf(b.sha256), 'x')
    const { findings } = await checkJournal()
    expect(findings).toHaveLength(2)
    const all = findings.join('\n')
    expect(all).toMatch(
      /a\.jpg of "Oak sideboard": the original \w+ is missing/,
    )
    expect(all).toMatch(/b\.jpg of "Oak sideboard": the original \w+ has other/)
  })

  test('sees a single bit that turned', async () => {
    const { c } = await keepThree()
    const file = await pathOf(c.sha256)
    const bytes = Buffer.from(await makePhoto({ width: 63 }))
    bytes[200] = (bytes[200] ?? 0) ^ 1
    writeFileSync(file, bytes)
    expect((await checkJournal()).findings.join()).toMatch(/c\.jpg/)
  })

  test('makes renditions anew that are missing or damaged, of turned photos too', async () => {
    const { a, b, c } = await keepThree()
    await turnPhoto(c.id, 1)
    await renditionsIdle()
    rmSync(await thumbOf(a.sha256))
    writeFileSync(await thumbOf(b.sha256), 'RIFF\0\0\0\0WEBP')
    const turned = await readRendition(c.sha256, 'screen', 1)
    if (!turned.ok) throw new Error(turned.refusal.detail)
    rmSync(turned.value.path)
    expect(await checkJournal()).toMatchObject({
      renditionsMade: 3,
      findings: [],
    })
    expect(await checkJournal()).toMatchObject({ renditionsMade: 0 })
  })

  test('removes renditions of photos that are gone, and leaves alone originals that no record names', async () => {
    await keepThree()
    const { originals, renditions } = await openDataFolder()
    const unknown = 'ab'.repeat(32)
    const rendition = readdirSync(renditions, { recursive: true })
      .map(String)
      .find((name) => name.endsWith('.webp'))
    const folder = path.dirname(path.join(renditions, rendition ?? ''))
    writeFileSync(path.join(folder, `${unknown}-thumb.webp`), 'x')
    const stray = path.join(originals, unknown)
    writeFileSync(stray, 'x')
    const found = await checkJournal()
    expect(found.renditionsRemoved).toBe(1)
    expect(found.findings.join()).toContain(unknown)
    expect(readdirSync(originals)).toContain(unknown)
  })

  test('finds records that cannot be', async () => {
    const { a } = await keepThree()
    const db = await database()
    await db.photo.update({
      where: { id: a.id },
      data: { takenLatest: new Date(0) },
    })
    expect((await checkJournal()).findings.join()).toMatch(/a\.jpg.*cannot be/)
  })
})
