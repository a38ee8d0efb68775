import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import {
  addCost,
  addWork,
  changeSale,
  correctHours,
  readBooks,
  removeCost,
  removeWork,
} from '#services/money/books'
import { readMoney } from '#services/money/money'
import { changeRates, readRates } from '#services/money/rates'
import { readSoldJobs } from '#services/money/sold-jobs'
import { newCost, newWork, ratesFacts, stepHours } from '#services/money/schema'
import { removeStep } from '#services/steps/steps'
import { makeJob, makeStep } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-22T08:00:00Z'))
const miles = newCost.parse({
  kind: 'travel',
  words: 'miles to fetch it',
  quantity: 24,
  eachMinor: 72.5,
})

/** What `readBooks` gives for a job. */
async function booksOf(jobId: string) {
  const books = (await readBooks([jobId])).get(jobId)
  if (books === undefined) throw new Error('expected books')
  return books
}

describe('the books of a job', () => {
  test('are empty at first, and of a job that is not there', async () => {
    const job = await makeJob()
    expect(await booksOf(job.id)).toEqual({
      costs: [],
      work: [],
      hours: [],
      sale: {},
    })
  })

  test('keep a price with parts of a cent, and reckon it to the cent', async () => {
    const job = await makeJob()
    const added = await addCost(job.id, miles, now)
    expect(added.ok).toBe(true)
    expect((await booksOf(job.id)).costs).toMatchObject([
      { kind: 'travel', quantity: 24, eachMinor: 72.5 },
    ])
    // 24 × 0.725 = 17.40.
    expect((await readMoney(job.id))?.money.costMinor).toBe(1740)
  })

  test('keep what is written down for one piece apart from what all share', async () => {
    const job = await makeJob()
    await addWork(
      job.id,
      newWork.parse({ words: 'fetching', minutes: 90, piece: job.pieceId }),
      now,
    )
    await addWork(
      job.id,
      newWork.parse({ words: 'photographing', minutes: 30 }),
      instant(now + 1),
    )
    expect((await booksOf(job.id)).work).toMatchObject([
      { words: 'fetching', minutes: 90, pieceId: job.pieceId },
      { words: 'photographing', minutes: 30 },
    ])
  })

  test('let go of what is taken out, once', async () => {
    const job = await makeJob()
    const cost = await addCost(job.id, miles, now)
    const work = await addWork(
      job.id,
      newWork.parse({ words: 'fetching', minutes: 90 }),
      now,
    )
    if (!cost.ok || !work.ok) throw new Error('expected both to be kept')
    expect((await removeCost(job.id, cost.value)).ok).toBe(true)
    expect((await removeWork(job.id, work.value)).ok).toBe(true)
    expect((await removeCost(job.id, cost.value)).ok).toBe(false)
    expect((await removeWork(job.id, work.value)).ok).toBe(false)
    const books = await booksOf(job.id)
    expect([...books.costs, ...books.work]).toEqual([])
  })

  test('take corrections of hours, forget an empty one, and lose them with their step', async () => {
    const job = await makeJob()
    const step = await makeStep(job.id, 'sand', job.surfaceIds)
    const correct = (hours: object) =>
      correctHours(job.id, [stepHours.parse({ step, ...hours })])
    expect((await correct({ workMinutes: 40, otherPieces: 2 })).ok).toBe(true)
    expect((await booksOf(job.id)).hours).toEqual([
      { stepId: step, workMinutes: 40, otherPieces: 2 },
    ])
    await correct({})
    expect((await booksOf(job.id)).hours).toEqual([])
    await correct({ workMinutes: 40 })
    await removeStep(job.id, step, now)
    expect((await booksOf(job.id)).hours).toEqual([])
  })

  test('refuse a piece, a step and a job that are not there', async () => {
    const job = await makeJob()
    const other = await makeJob()
    const step = await makeStep(other.id, 'sand', other.surfaceIds)
    const refusals = [
      await addCost(job.id, { ...miles, piece: other.pieceId }, now),
      await correctHours(job.id, [stepHours.parse({ step, workMinutes: 1 })]),
      await changeSale('nowhere', {}),
    ]
    expect(refusals.map((one) => one.ok)).toEqual([false, false, false])
    expect((await booksOf(job.id)).costs).toEqual([])
  })

  test('tell what was really earned after the sale', async () => {
    const job = await makeJob()
    await addCost(job.id, miles, now)
    await addWork(
      job.id,
      newWork.parse({ words: 'all of it', minutes: 120 }),
      now,
    )
    await changeSale(job.id, { priceMinor: 10_000, feesPaidMinor: 1030 })
    const sold = (await readMoney(job.id))?.money.sold
    // 100.00 − 10.30 − 17.40 = 72.30; ÷ 2 h = 36.15.
    expect(sold).toMatchObject({ earnedMinor: 7230, hourlyMinor: 3615 })
    await changeSale(job.id, {})
    expect((await readMoney(job.id))?.money.sold).toBeNull()
  })
})

test('a job that was sold for a price tells what pays, another does not', async () => {
  const job = await makeJob()
  await makeJob()
  await addWork(job.id, newWork.parse({ words: 'all', minutes: 60 }), now)
  await changeSale(job.id, { priceMinor: 5000 })
  expect(await readSoldJobs()).toEqual([
    {
      id: job.id,
      title: 'Oak sideboard',
      kinds: ['sideboard'],
      finishes: [],
      earnedMinor: 5000,
      minutes: 60,
    },
  ])
})

test('several books are read at once, each by its job', async () => {
  const one = await makeJob()
  const other = await makeJob()
  await addCost(one.id, miles, now)
  const books = await readBooks([one.id, other.id])
  expect(books.get(one.id)?.costs).toHaveLength(1)
  expect(books.get(other.id)?.costs).toHaveLength(0)
})

test('rates are kept, and forgotten when they are left out', async () => {
  expect(await readRates()).toEqual({})
  await changeRates({ hourlyMinor: 2500, productiveHours: 1200 })
  expect(await readRates()).toEqual({
    hourlyMinor: 2500,
    productiveHours: 1200,
  })
  await changeRates({ hourlyMinor: 3000 })
  expect(await readRates()).toEqual({ hourlyMinor: 3000 })
})

test.each([
  ['a price below nothing', newCost, { kind: 'parts', eachMinor: -1 }],
  ['none of a thing', newCost, { kind: 'parts', eachMinor: 1, quantity: 0 }],
  ['a kind that there is none of', newCost, { kind: 'luck', eachMinor: 1 }],
  ['work without words', newWork, { words: '', minutes: 5 }],
  ['half a minute', newWork, { words: 'x', minutes: 0.5 }],
  ['a fee of the whole price', ratesFacts, { feePercent: 100 }],
  ['overhead over no hours', ratesFacts, { yearlyOverheadMinor: 1 }],
])('%s is refused', (_, schema, value) => {
  expect(schema.safeParse(value).success).toBe(false)
})
