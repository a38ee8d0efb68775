import { expect, test } from 'vitest'
import { benchMoments } from '#core/bench/bench-moments'
import { judgeBench } from '#core/bench/judge-bench'
import { at } from '../air/any-air'
import { entry } from './entry'

const momentsAt = (
  entries: Parameters<typeof judgeBench>[0],
  minutes: number,
) => benchMoments(judgeBench(entries, at(minutes)))

test('a coat is ready, its window closes and it is cured, each once for all surfaces that share it', () => {
  const times = { ready: 60, by: 4320, cured: 30_240 }
  const moments = momentsAt(
    [entry({ surface: 'body', ...times }), entry({ surface: 'top', ...times })],
    0,
  )
  expect(moments.map(({ kind, at: moment }) => [kind, moment])).toEqual([
    ['ready', at(60)],
    ['recoat-by', at(4320)],
    ['cured', at(30_240)],
  ])
  expect(moments[0]?.title).toBe(
    'sideboard, body and top: ready for the next coat',
  )
})

test('its id stays when its time changes, and no two have the same', () => {
  const ids = (ready: number) =>
    momentsAt(
      [
        entry({ surface: 'body', ready, by: 9000 }),
        entry({ surface: 'top', ready: ready + 30 }),
      ],
      0,
    ).map((moment) => moment.id)
  expect(new Set(ids(60)).size).toBe(3)
  expect(new Set(ids(120))).toEqual(new Set(ids(60)))
})

test('what has passed is only waited for to cure', () => {
  const kinds = momentsAt(
    [entry({ surface: 'body', ready: 60, by: 120, cured: 9000 })],
    200,
  ).map((moment) => moment.kind)
  expect(kinds).toEqual(['cured'])
})
