import { expect, test } from 'vitest'
import { renditionQueue } from '#services/renditions/rendition-queue'

const pause = () => new Promise((resolve) => setTimeout(resolve, 2))

test('no more is worked on at once than is allowed', async () => {
  const queue = renditionQueue(2)
  let working = 0
  let most = 0
  for (let count = 0; count < 12; count += 1) {
    void queue.add(
      String(count),
      async () => {
        working += 1
        most = Math.max(most, working)
        await pause()
        working -= 1
      },
      false,
    )
  }
  expect(queue.length()).toBe(12)
  await queue.idle()
  expect(queue.length()).toBe(0)
  expect(most).toBe(2)
  expect(working).toBe(0)
})

test('what somebody waits for comes before what nobody does', async () => {
  const queue = renditionQueue(1)
  const done: string[] = []
  const work = (key: string) => async () => {
    await pause()
    done.push(key)
  }
  for (const key of ['a', 'b', 'c', 'd']) {
    void queue.add(key, work(key), false)
  }
  void queue.add('c', work('c'), true)
  void queue.add('e', work('e'), true)
  await queue.idle()
  expect(done).toEqual(['c', 'e', 'a', 'b', 'd'])
})

test('those who wait are served in the order they came, however many come later', async () => {
  const queue = renditionQueue(1)
  const done: string[] = []
  const work = (key: string) => async () => {
    await pause()
    done.push(key)
  }
  void queue.add('background', work('background'), false)
  for (const key of ['first', 'second']) {
    void queue.add(key, work(key), true)
  }
  // While the first is being worked on, more keep coming.
  void queue.add('third', work('third'), true)
  void queue.add('background', work('background'), true)
  void queue.add('last', work('last'), true)
  await queue.idle()
  expect(done).toEqual(['first', 'second', 'third', 'background', 'last'])
})

test('the same work is done once however many ask for it', async () => {
  const queue = renditionQueue(1)
  let times = 0
  const work = async () => {
    await pause()
    times += 1
  }
  await Promise.all([1, 2, 3].map(() => queue.add('a', work, true)))
  expect(times).toBe(1)
})

test('one that fails is reported to who asked and does not hold up the rest', async () => {
  const queue = renditionQueue(1)
  const failing = queue.add(
    'a',
    () => Promise.reject(new Error('the picture is damaged')),
    false,
  )
  const following = queue.add(
    'b',
    async () => {
      await pause()
    },
    false,
  )
  await expect(failing).rejects.toThrow('damaged')
  await following
  await queue.idle()
})
