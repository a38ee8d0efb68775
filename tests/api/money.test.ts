import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { addCost, correctHours } from '#services/money/books'
import { changeRates } from '#services/money/rates'
import { newCost, stepHours } from '#services/money/schema'
import { callApi, memberOf } from '../support/api'
import { shelve, startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

/** The worked job of tests/reference/worked-pricing.test.ts, kept. */
async function workedJob() {
  const job = await startJob(['body'])
  const product = await shelve(
    {},
    { pack: { amount: 1, unit: 'us-qt', price: '38.00' } },
  )
  const step = await writeStep(job, {
    kind: 'coat',
    surfaces: [job.surface('body')],
    product,
    amount: { value: 19.87, unit: 'us-fl-oz' },
  })
  const now = instant(Date.parse('2026-10-22T08:00:00Z'))
  for (const cost of [
    { kind: 'acquisition', eachMinor: 4000 },
    { kind: 'travel', words: 'miles', quantity: 24, eachMinor: 72.5 },
    { kind: 'consumables', words: 'discs', quantity: 4, eachMinor: 65 },
    { kind: 'consumables', words: 'tape', eachMinor: 165 },
  ]) {
    await addCost(job.id, newCost.parse(cost), now)
  }
  await correctHours(job.id, [stepHours.parse({ step, workMinutes: 570 })])
  await changeRates({
    hourlyMinor: 2500,
    yearlyOverheadMinor: 360_000,
    productiveHours: 1200,
    feePercent: 10,
    feeFixedMinor: 30,
  })
  return job
}

describe('the money of a job', () => {
  test('comes with its arithmetic', async () => {
    const job = await workedJob()
    const answer = await callApi('GET', `/api/jobs/${job.id}/money`)
    expect(answer.status).toBe(200)
    expect(await answer.json()).toMatchObject({
      currency: 'GBP',
      costMinor: 35_125,
      outlayMinor: 11_375,
      labourMinor: 23_750,
      selling: { percent: 10, fixedMinor: 30 },
      breakEven: {
        exact: '390.6111',
        priceMinor: 39_062,
        arithmetic: '(351.25 + 0.30) ÷ (1 − 0.1) = 390.6111',
      },
      asking: null,
      sold: null,
      gaps: [],
    })
  })

  test('tries a price and a rate without keeping them', async () => {
    const job = await workedJob()
    const tried = await callApi(
      'GET',
      `/api/jobs/${job.id}/money?price=45000&hourly=0`,
    )
    expect(await memberOf(tried, 'supposed', 'hourlyMinor')).toBe(3063)
    expect(await memberOf(tried, 'breakEven', 'exact')).toBe('126.7222')
    const after = await callApi('GET', `/api/jobs/${job.id}/money`)
    expect(await memberOf(after, 'supposed')).toBeNull()
    expect(await memberOf(after, 'breakEven', 'priceMinor')).toBe(39_062)
  })

  test('refuses a price that is no number', async () => {
    const job = await startJob()
    const answer = await callApi('GET', `/api/jobs/${job.id}/money?price=lots`)
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe('price')
  })

  test('is not there for a job that is not', async () => {
    const answer = await callApi('GET', '/api/jobs/nowhere/money')
    expect(answer.status).toBe(404)
  })
})

describe('what others read', () => {
  test.each([
    'write-ups/listing',
    'write-ups/video',
    'materials.txt?reader=viewer',
    'materials.txt?reader=buyer',
    'materials.csv?reader=viewer',
  ])('%s has no cost in it', async (name) => {
    const job = await workedJob()
    const answer = await callApi('GET', `/api/jobs/${job.id}/${name}`)
    expect(answer.status).toBe(200)
    const text = await answer.text()
    expect(text).toContain('enamel')
    // The price of the pack, what was used of it, what was paid for the piece, the lowest price; and the word.
    expect(text).not.toMatch(/38\.00|23\.60|40\.00|351\.25|390\.6|£|GBP|cost/i)
  })

  test('would be seen: the owner’s list has it', async () => {
    const job = await workedJob()
    const answer = await callApi('GET', `/api/jobs/${job.id}/materials.txt`)
    expect(await answer.text()).toContain('£23.60')
  })
})
