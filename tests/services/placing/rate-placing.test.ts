import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Rating, scoreTogether } from '#core/placing/rate-proposals'
import { instant } from '#core/units'
import { ratePlacing } from '#services/placing/rate-placing'
import { renditionsIdle } from '#services/renditions/renditions'
import { seedDemo } from '../../../prisma/demo/seed-demo'
import { closeWorkshop, openWorkshop } from '../../support/workshop'

let root = ''
let ratings: readonly Rating[] = []

beforeAll(async () => {
  root = openWorkshop()
  await seedDemo(instant(Date.parse('2026-11-16T08:00:00Z')))
  // Looks are recorded with the renditions.
  await renditionsIdle()
  ratings = await ratePlacing()
})

afterAll(async () => {
  await closeWorkshop(root)
})

/**
 * The truth is what the demo says of each photo (prisma/demo/photos.json), written when the pictures were rendered; it is
 * hidden from the proposals, and a job teaches nothing for itself.
 */
describe('the first proposal for the 44 photos of the demo', () => {
  const together = (
    name: 'inTurn' | 'atOnce' | 'plainInTurn' | 'plainAtOnce',
  ) => scoreTogether(ratings.map((rating) => rating[name]))

  test('is right more often than "the same as the photo before", one after another', () => {
    const [ours, plain] = [together('inTurn'), together('plainInTurn')]
    expect(ours.photos).toBe(44)
    expect(ours.right).toBeGreaterThan(plain.right)
    expect(ours.nearlyRight).toBeGreaterThan(plain.nearlyRight)
    expect(ours.kindRight).toBeGreaterThan(plain.kindRight)
  })

  test('is right more often for a whole card at once than the plain rule that is told each photo before', () => {
    const [ours, plain] = [together('atOnce'), together('plainInTurn')]
    expect(ours.right).toBeGreaterThan(plain.right)
    expect(ours.right).toBeGreaterThan(together('plainAtOnce').right)
  })

  test('is right more often when it is sure', () => {
    const all = ratings.flatMap((rating) => rating.confidences)
    const share = (some: typeof all) =>
      some.filter((one) => one.isRight).length / some.length
    const sure = all.filter((one) => one.confidence >= 0.7)
    const unsure = all.filter((one) => one.confidence < 0.5)
    expect(sure.length).toBeGreaterThan(5)
    expect(unsure.length).toBeGreaterThan(5)
    expect(share(sure)).toBeGreaterThan(share(unsure))
  })
})
