import { expect, test } from 'vitest'
import { labelTimes, recoatWindows } from '#core/drying/recoat-windows'

const fast = {
  recoatWindows: [
    { fromMinutes: 240, toMinutes: 360 },
    { fromMinutes: 1440, needs: 'sand' as const },
  ],
}

test('one least and one latest time are one window', () => {
  expect(recoatWindows({ recoatMinutes: 60, recoatByMinutes: 1440 })).toEqual([
    { fromMinutes: 60, toMinutes: 1440 },
  ])
  expect(recoatWindows({ recoatMinutes: 60 })).toEqual([{ fromMinutes: 60 }])
  expect(recoatWindows({ sandMinutes: 60 })).toEqual([])
})

test('windows on the label are the whole word', () => {
  expect(recoatWindows({ ...fast, recoatMinutes: 60 })).toBe(fast.recoatWindows)
})

test('a scuff opens a passed window again, from the same least wait on', () => {
  const times = labelTimes(
    { recoatMinutes: 60, recoatByMinutes: 1440 },
    'recoat',
  )
  const open = times?.open
  expect(open?.none).toEqual([{ from: 60, to: 1440 }])
  expect(open?.scuff).toEqual([{ from: 60, to: Infinity }])
  expect(open?.sand).toEqual([{ from: 60, to: Infinity }])
})

test('where the label asks for sanding a scuff is not enough', () => {
  const open = labelTimes(fast, 'recoat')?.open
  expect(open?.scuff).toEqual([{ from: 240, to: 360 }])
  expect(open?.sand).toEqual([
    { from: 240, to: 360 },
    { from: 1440, to: Infinity },
  ])
})

test('without a time of its own, sanding waits as long as the next coat would', () => {
  expect(labelTimes({ recoatMinutes: 60 }, 'sand')).toMatchObject({
    windows: [{ fromMinutes: 60 }],
    basis: 'recoat',
  })
  expect(
    labelTimes({ recoatMinutes: 60, sandMinutes: 120 }, 'sand'),
  ).toMatchObject({ windows: [{ fromMinutes: 120 }], basis: 'sand' })
})

test('with an early window wet on wet, sanding waits for the late one', () => {
  expect(labelTimes(fast, 'sand')?.windows).toMatchObject([
    { fromMinutes: 1440 },
  ])
})

test('a label that only says by when says nothing about sanding', () => {
  expect(labelTimes({ recoatByMinutes: 60 }, 'sand')).toBeUndefined()
  expect(labelTimes({ recoatByMinutes: 60 }, 'recoat')?.hasMinimum).toBe(false)
  expect(labelTimes({}, 'recoat')).toBeUndefined()
})
