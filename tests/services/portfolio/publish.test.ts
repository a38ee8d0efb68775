import { existsSync, readdirSync } from 'node:fs'
import { afterAll, describe, expect, test } from 'vitest'
import { piecePage } from '#core/portfolio/piece-page'
import { servedLinks } from '#core/portfolio/portfolio-links'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { addMinutes } from '#core/units'
import { removePhoto, restorePhoto } from '#services/bin/bin'
import { database, openDataFolder } from '#services/database/open-database'
import { contentOf, keepDraft, readDraft } from '#services/portfolio/drafts'
import { publishPiece, unpublishPiece } from '#services/portfolio/publish'
import {
  readPublished,
  readPublishedAddress,
  readPublishedOfJob,
  readPublishedPiece,
  readPublishedPicture,
} from '#services/portfolio/published'
import {
  changePortfolioSettings,
  readPortfolioHead,
} from '#services/portfolio/settings'
import { portfolioSettings } from '#services/portfolio/schema'
import { openPicture } from '#services/renditions/open-picture'
import { makePhoto } from '../../support/make-photo'
import { arrival } from '../../support/send-photos'
import {
  accepted,
  choiceOf,
  makeShownJob,
  publishWith,
} from '../../support/shown-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

async function job() {
  return makeShownJob(
    ['before.jpg', await makePhoto({ width: 800, height: 600 })],
    [
      'after.jpg',
      await makePhoto({
        width: 800,
        height: 600,
        colour: { r: 30, g: 112, b: 114 },
      }),
    ],
  )
}

describe('what is out', () => {
  test('is what its owner saw of the draft, to the letter', async () => {
    const made = await job()
    accepted(
      await keepDraft(
        made.id,
        made.pieceId,
        choiceOf(made, { story: 'Its story.' }),
      ),
    )
    const draft = accepted(await readDraft(made.id, made.pieceId))
    const { shown } = await contentOf(draft)
    const head = await readPortfolioHead()
    const seen = piecePage({ slug: draft.slug, shown }, head, servedLinks)
    const slug = accepted(
      await publishPiece(made.id, made.pieceId, draft.seen, arrival),
    )
    const published = await readPublishedPiece(slug)
    if (published === undefined) throw new Error('it is not out')
    expect(piecePage(published, head, servedLinks)).toBe(seen)
    expect(published.shown.colours).toContain('blue-green')
  })

  test('is nothing until it is published, and stays as it is while the draft changes', async () => {
    const made = await job()
    accepted(await keepDraft(made.id, made.pieceId, choiceOf(made)))
    expect(await readPublished()).toEqual([])
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    expect(accepted(await readDraft(made.id, made.pieceId)).hasChanged).toBe(
      false,
    )
    accepted(
      await keepDraft(
        made.id,
        made.pieceId,
        choiceOf(made, { story: 'Not yet.' }),
      ),
    )
    expect((await readPublishedPiece(slug))?.shown.story).toEqual([])
    expect(accepted(await readDraft(made.id, made.pieceId)).hasChanged).toBe(
      true,
    )
  })

  test('is not put out when it has changed since it was looked at, nor without a picture', async () => {
    const made = await job()
    accepted(await keepDraft(made.id, made.pieceId, choiceOf(made)))
    const { seen } = accepted(await readDraft(made.id, made.pieceId))
    accepted(
      await keepDraft(
        made.id,
        made.pieceId,
        choiceOf(made, { title: 'Other' }),
      ),
    )
    expect(
      await publishPiece(made.id, made.pieceId, seen, arrival),
    ).toMatchObject({
      ok: false,
      refusal: { kind: 'conflict' },
    })
    await expect(
      publishWith(made.id, made.pieceId, choiceOf(made, { pairs: [] })),
    ).rejects.toThrow('at least one')
    expect(await readPublished()).toEqual([])
  })

  test('is gone with its pictures once it is taken down, and keeps its address for the next time', async () => {
    const made = await job()
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    const file = 'front-before-720.webp'
    const before = await readPublishedPicture(slug, file)
    expect(existsSync(before?.path ?? '')).toBe(true)
    accepted(await unpublishPiece(made.id, made.pieceId))
    expect(await readPublishedPiece(slug)).toBeUndefined()
    expect(await readPublishedPicture(slug, file)).toBeUndefined()
    expect(existsSync(before?.path ?? '')).toBe(false)
    const { portfolio } = await openDataFolder()
    expect(readdirSync(portfolio)).toEqual([])
    expect(
      await publishWith(
        made.id,
        made.pieceId,
        choiceOf(made, { title: 'Another title' }),
      ),
    ).toBe(slug)
  })

  test('loses what is made from a photo as soon as that is in the bin', async () => {
    const made = await job()
    const slug = await publishWith(
      made.id,
      made.pieceId,
      choiceOf(made, { photos: [made.after] }),
    )
    expect((await readPublishedPiece(slug))?.shown.pairs).toHaveLength(1)
    accepted(await removePhoto(made.id, made.before, arrival))
    const left = (await readPublishedPiece(slug))?.shown
    expect(left?.pairs).toEqual([])
    expect(left?.gallery).toHaveLength(1)
    expect(
      await readPublishedPicture(slug, 'front-before-720.webp'),
    ).toBeUndefined()
    accepted(await restorePhoto(made.id, made.before))
    expect((await readPublishedPiece(slug))?.shown.pairs).toHaveLength(1)
  })

  test('is changed when it is published anew, and only where it looks different', async () => {
    const made = await job()
    const later = addMinutes(arrival, 60)
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    await publishWith(made.id, made.pieceId, choiceOf(made), later)
    expect(await readPublishedPiece(slug)).toMatchObject({
      publishedAt: arrival,
      changedAt: arrival,
    })
    await publishWith(
      made.id,
      made.pieceId,
      choiceOf(made, { story: 'More.' }),
      later,
    )
    expect(await readPublishedPiece(slug)).toMatchObject({
      publishedAt: arrival,
      changedAt: later,
    })
  })

  test('has an address that no other piece has', async () => {
    const [one, other] = [await job(), await job()]
    expect(await publishWith(one.id, one.pieceId, choiceOf(one))).toBe(
      'sideboard-in-teal',
    )
    expect(await publishWith(other.id, other.pieceId, choiceOf(other))).toBe(
      'sideboard-in-teal-2',
    )
    expect([...(await readPublishedOfJob(one.id)).keys()]).toEqual([
      one.pieceId,
    ])
    expect(await unpublishPiece(one.id, other.pieceId)).toMatchObject({
      ok: false,
    })
    expect(await readPublished()).toHaveLength(2)
  })

  test('is out no more while its piece or its job is in the bin', async () => {
    const made = await job()
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    const db = await database()
    const removedAt = new Date(arrival)
    await db.piece.update({ where: { id: made.pieceId }, data: { removedAt } })
    expect(await readPublished()).toEqual([])
    expect(
      await readPublishedPicture(slug, 'front-after-720.webp'),
    ).toBeUndefined()
    await db.piece.update({
      where: { id: made.pieceId },
      data: { removedAt: null },
    })
    expect(await readPublished()).toHaveLength(1)
    await db.job.update({ where: { id: made.id }, data: { removedAt } })
    expect(await readPublishedPiece(slug)).toBeUndefined()
    await db.job.update({ where: { id: made.id }, data: { removedAt: null } })
    expect(await readPublishedPiece(slug)).toBeDefined()
  })

  test('goes with its piece', async () => {
    const made = await job()
    await publishWith(made.id, made.pieceId, choiceOf(made))
    const db = await database()
    await db.job.delete({ where: { id: made.id } })
    expect(await readPublished()).toEqual([])
  })
})

describe('a picture that is out', () => {
  test('is no larger than its side, and the shared one has the size that is told', async () => {
    const made = await job()
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    const sizeOf = async (file: string) => {
      const found = await readPublishedPicture(slug, file)
      const { width, height, format } = await openPicture(
        found?.path ?? '',
      ).metadata()
      return [width, height, format]
    }
    expect(await sizeOf('front-after-1440.webp')).toEqual([800, 600, 'webp'])
    expect(await sizeOf('front-after-720.webp')).toEqual([720, 540, 'webp'])
    expect(await sizeOf('shared.jpg')).toEqual([1200, 630, 'jpeg'])
  })

  test('is what was chosen, by its exact name', async () => {
    const made = await job()
    const slug = await publishWith(made.id, made.pieceId, choiceOf(made))
    for (const file of [
      'front-after-2880.webp',
      'front-after',
      '../front-after-720.webp',
      'original',
      '',
    ]) {
      expect(await readPublishedPicture(slug, file)).toBeUndefined()
    }
  })
})

describe('the public address', () => {
  test('is kept without what would double or break it', () => {
    const parse = (publicAddress: string) =>
      portfolioSettings.safeParse({
        publicAddress,
        introduction: '',
        contact: '',
      })
    expect(parse('https://alder-yard.example/work//').data?.publicAddress).toBe(
      'https://alder-yard.example/work',
    )
    expect(parse('').data?.publicAddress).toBe('')
    for (const wrong of [
      'alder-yard.example',
      'javascript:alert(1)',
      'https://a.example/?q',
      'https://a.example/#x',
    ]) {
      expect(parse(wrong).success).toBe(false)
    }
  })

  test('leads to the page of a job once it is out', async () => {
    const made = await job()
    await changePortfolioSettings({
      publicAddress: 'https://alder-yard.example',
      introduction: '',
      contact: '',
    })
    expect(await readPublishedAddress(made.id)).toBeUndefined()
    await publishWith(made.id, made.pieceId, choiceOf(made))
    expect(await readPublishedAddress(made.id)).toBe(
      'https://alder-yard.example/sideboard-in-teal/',
    )
    await changePortfolioSettings({
      publicAddress: '',
      introduction: '',
      contact: '',
    })
    expect(await readPublishedAddress(made.id)).toBeUndefined()
  })
})
