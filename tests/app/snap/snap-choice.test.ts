import { expect, test } from 'vitest'
import {
  type SnapChoice,
  bodyOfStep,
  doingOf,
  likeliestChoice,
  withOver,
} from '../../../app/snap/snap-choice'

const newStep = { kind: 'coat', surfaces: ['top'], product: 'enamel' }
const offered: SnapChoice = {
  id: 'after one',
  job: 'sideboard',
  title: 'Paint, coat 2: sideboard top',
  detail: '',
  why: '',
  newStep,
  fields: [],
  follows: ['one'],
  doing: { amount: 180, amountUnit: 'ml', thinningPercent: 5, grit: 220 },
}

test('the amount of the last time is not sent for this time', () => {
  const doing = doingOf(offered, undefined)
  expect(doing.amount).toBeUndefined()
  expect(bodyOfStep(newStep, doing)).toEqual({
    ...newStep,
    thinningPercent: 5,
    grit: 220,
  })
})

test('an amount that was set in this go is sent, in the unit of the last time', () => {
  const said = { ...doingOf(offered, undefined), amount: 150 }
  expect(bodyOfStep(newStep, doingOf(offered, said))).toMatchObject({
    amount: { value: 150, unit: 'ml' },
  })
})

test('setting something else does not bring the amount of the last time along', () => {
  const said = { ...doingOf(offered, undefined), thinningPercent: 10 }
  const body = bodyOfStep(newStep, doingOf(offered, said))
  expect(body).not.toHaveProperty('amount')
  expect(body).toMatchObject({ thinningPercent: 10, grit: 220 })
})

test('where nothing is offered nothing is said', () => {
  expect(bodyOfStep({}, doingOf(undefined, undefined))).toEqual({})
})

const lining: SnapChoice = {
  id: 'lining',
  job: 'sideboard',
  jobTitle: 'Oak sideboard',
  title: 'Liner: sideboard drawers',
  detail: '',
  why: '',
  newStep: { kind: 'liner', surfaces: ['drawers'] },
  over: { step: 'lining', when: 'Mon 26 Oct 11:02' },
  fields: [],
  follows: [],
  doing: {},
}

test('a step that ended days ago is never what the next photo is taken for', () => {
  expect(likeliestChoice([lining, offered], undefined, undefined)).toBe(offered)
  const alone = likeliestChoice([lining], undefined, undefined)
  expect(alone).toMatchObject({
    job: 'sideboard',
    detail: 'Oak sideboard · Not placed on a step yet',
  })
  expect(alone?.step).toBeUndefined()
  expect(alone?.newStep).toBeUndefined()
})

test('a step that is over is begun anew unless its owner says that it goes on', () => {
  const more = withOver(lining, true, [lining])
  expect(more.step).toBe('lining')
  expect(more.newStep).toBeUndefined()
  expect(withOver(more, false, [lining])).toBe(lining)
})

test('more of a step that is over goes by the name of that step', () => {
  const over = { step: 'prime', when: '', title: 'Prime, coat 1: box' }
  const anew = { ...lining, title: 'Prime like coat 1: box', over }
  expect(withOver(anew, true, [anew]).title).toBe('Prime, coat 1: box')
  expect(withOver(anew, false, [anew]).title).toBe('Prime like coat 1: box')
})
