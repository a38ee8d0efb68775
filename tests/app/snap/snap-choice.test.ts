import { describe, expect, test } from 'vitest'
import {
  type SnapChoice,
  bodyOfStep,
  doingOf,
  idOfStep,
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
  expect(likeliestChoice([lining, offered], undefined, {})).toBe(offered)
  const alone = likeliestChoice([lining], undefined, {})
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

describe('of two steps that are being worked on', () => {
  const [paint, stain] = ['Paint, coat 1', 'Stain, coat 1'].map(
    (title): SnapChoice => ({
      ...offered,
      id: title,
      title,
      step: title,
      follows: [],
    }),
  )
  const both = [paint, stain].flatMap((one) => one ?? [])
  const inHand = { ...offered, step: 'Paint, coat 1', title: 'Paint, coat 9' }

  test('the next photo is of the one in hand, under the name that it has by now', () => {
    for (const page of [{}, { job: 'sideboard' }]) {
      expect(likeliestChoice(both, inHand, page)).toMatchObject({
        step: 'Paint, coat 1',
        title: 'Paint, coat 1',
      })
    }
  })

  test('it is of the one whose page is open', () => {
    const page = { job: 'sideboard', step: 'Stain, coat 1' }
    expect(likeliestChoice(both, inHand, page)).toBe(stain)
    const none = { job: 'sideboard', step: 'Wax' }
    expect(likeliestChoice(both, inHand, none)?.step).toBe('Paint, coat 1')
  })
})

test('a step that this phone has sent is known by its id, before that by its key alone', () => {
  const begun = { ...offered, stepKey: 'k' }
  expect(idOfStep(begun, [])).toBeUndefined()
  expect(idOfStep(begun, [{ key: 'k', id: 'one' }])).toBe('one')
  expect(idOfStep({ ...begun, step: 'two' }, [])).toBe('two')
})
