import fc from 'fast-check'
import { expect, test } from 'vitest'
import { renumberedCoats } from '#core/journal/renumber-coats'

const lane = (...coats: readonly (number | undefined)[]) => [
  {
    surface: { id: 'top' },
    steps: coats.map((coat, index) => ({
      id: `step-${index}`,
      kind: 'coat' as const,
      ...(coat === undefined ? {} : { coat }),
    })),
  },
]
const top = { kind: 'coat', surfaceId: 'top' } as const
const numbers = (lanes: ReturnType<typeof lane>, first?: number) =>
  renumberedCoats(lanes, [first === undefined ? top : { ...top, first }]).map(
    ({ was, coat }) => [was, coat],
  )

test.each([
  [
    'a coat was put in between',
    [1, 3, 2],
    [
      [3, 2],
      [2, 3],
    ],
  ],
  [
    'one was taken out',
    [1, 3, 4],
    [
      [3, 2],
      [4, 3],
    ],
  ],
  ['two have the same number', [1, 2, 2], [[2, 3]]],
  ['all is right', [1, 2, 3], []],
  ['the first coats were laid before the journal began', [3, 4], []],
])('coats follow the order of the work: %s', (_, coats, expected) => {
  expect(numbers(lane(...coats))).toEqual(expected)
})

test('where the first coat was taken out, the others move up', () => {
  expect(numbers(lane(2, 3), 1)).toEqual([
    [2, 1],
    [3, 2],
  ])
})

test('only coats of the kind on the surface are counted, and steps without a number are none', () => {
  const lanes = [
    ...lane(1, undefined, 3),
    {
      surface: { id: 'legs' },
      steps: [{ id: 'other', kind: 'coat' as const, coat: 7 }],
    },
  ]
  expect(renumberedCoats(lanes, [top])).toEqual([
    { stepId: 'step-2', surfaceId: 'top', was: 3, coat: 2 },
  ])
  expect(renumberedCoats(lanes, [{ ...top, kind: 'prime' }])).toEqual([])
})

test('numbered anew, coats count up by one and nothing is left to do', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 9 }),
      (coats) => {
        const found = new Map(
          renumberedCoats(lane(...coats), [top]).map((one) => [
            one.stepId,
            one.coat,
          ]),
        )
        const after = coats.map(
          (coat, index) => found.get(`step-${index}`) ?? coat,
        )
        expect(after).toEqual(
          after.map((_, index) => Math.min(...coats) + index),
        )
      },
    ),
  )
})
