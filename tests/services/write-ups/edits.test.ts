import { expect, test } from 'vitest'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { keepEdit, removeEdit } from '#services/write-ups/edits'
import { readEdits } from '#services/write-ups/read-edits'
import {
  changeWriteUpSettings,
  readWriteUpSettings,
} from '#services/write-ups/settings'
import { readWriteUp } from '#services/write-ups/write-ups'
import { makeJob } from '../../support/make-job.ts'
import { useWorkshop } from '../../support/workshop.ts'

useWorkshop()

const now = instant(Date.parse('2026-11-01T10:00:00Z'))

test('the words of a sentence are kept with what they were made on, and marked once that changes', async () => {
  const { id, pieceId } = await makeJob()
  expect(
    await keepEdit(
      id,
      { writeUp: 'listing', sentence: 'summary', words: 'My sideboard.' },
      now,
    ),
  ).toMatchObject({ ok: true })
  const before = await readWriteUp(id, 'listing', now)
  expect(before?.text).toContain('My sideboard.')
  expect(before?.paragraphs[0]?.sentences[0]?.edit).toMatchObject({
    offered: 'A sideboard.',
    changed: false,
  })
  const db = await database()
  await db.piece.update({ where: { id: pieceId }, data: { material: 'oak' } })
  const after = await readWriteUp(id, 'listing', now)
  expect(after?.text).toContain('My sideboard.')
  expect(after?.paragraphs[0]?.sentences[0]?.edit).toMatchObject({
    offered: 'An oak sideboard.',
    changed: true,
  })
  // The other texts of the job say it in their own words.
  expect((await readWriteUp(id, 'caption', now))?.text).toContain(
    'An oak sideboard.',
  )
  await removeEdit(id, 'listing', 'summary')
  expect((await readWriteUp(id, 'listing', now))?.text).toContain(
    'An oak sideboard.',
  )
})

test('an edit of a caution, or of a sentence that is gone, is refused and nothing is kept', async () => {
  const { id } = await makeJob()
  for (const [sentence, kind] of [
    ['tip-over', 'invalid'],
    ['no such', 'conflict'],
  ] as const) {
    expect(
      await keepEdit(id, { writeUp: 'listing', sentence, words: '' }, now),
    ).toMatchObject({ ok: false, refusal: { kind } })
  }
  expect(await readEdits(id)).toEqual([])
  expect(
    await keepEdit(
      'nowhere',
      { writeUp: 'care', sentence: 'title', words: 'x' },
      now,
    ),
  ).toMatchObject({ ok: false, refusal: { kind: 'not-found' } })
})

test('limits, links and tags are what is usual until they are set, and hold then', async () => {
  expect((await readWriteUpSettings()).limits.listing).toBe(4000)
  const settings = {
    limits: { listingTitle: 20, listing: 200, video: 300, caption: 40 },
    links: [{ label: 'Diary', address: 'https://alder-yard.example/' }],
    tags: ['alder yard'],
  }
  await changeWriteUpSettings(settings)
  expect(await readWriteUpSettings()).toEqual(settings)
  const { id } = await makeJob()
  const listing = await readWriteUp(id, 'listing', now)
  expect(listing?.text.length).toBeLessThanOrEqual(200)
  expect((await readWriteUp(id, 'video', now))?.text).toContain(
    'Diary: https://alder-yard.example/',
  )
  expect((await readWriteUp(id, 'caption', now))?.text).toContain('#alderyard')
})

test('words that are kept while there is little room rest on the whole sentence, and are not marked as changed', async () => {
  const { id, pieceId } = await makeJob()
  const db = await database()
  await db.piece.update({
    where: { id: pieceId },
    data: {
      widthMillimetres: 900,
      depthMillimetres: 400,
      heightMillimetres: 800,
      material: 'oak, with drawer bottoms of old plywood',
    },
  })
  await changeWriteUpSettings({
    limits: { listingTitle: 80, listing: 200, video: 300, caption: 40 },
    links: [],
    tags: [],
  })
  const sentence = `size ${pieceId}`
  const shown = await readWriteUp(id, 'listing', now)
  expect(shown?.text).not.toContain('width x depth x height')
  expect(
    await keepEdit(
      id,
      { writeUp: 'listing', sentence, words: 'About a metre wide.' },
      now,
    ),
  ).toMatchObject({ ok: true })
  const [kept] = await readEdits(id)
  expect(kept?.madeOn.text).toContain('width x depth x height')
  for (const limit of [200, 4000]) {
    const after = await readWriteUp(id, 'listing', now, { limit })
    const size = after?.paragraphs
      .flatMap(({ sentences }) => sentences)
      .find(({ key }) => key === sentence)
    expect(size?.text).toBe('About a metre wide.')
    expect(size?.edit?.changed).toBe(false)
  }
})
