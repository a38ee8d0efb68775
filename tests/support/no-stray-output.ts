import { afterEach, beforeEach, expect, vi } from 'vitest'

/** A message nobody asked for is a defect: a test fails when the code under it writes to the console. */
let spies: { mock: { calls: unknown[][] } }[] = []

beforeEach(() => {
  spies = [
    vi.spyOn(console, 'error').mockImplementation(() => undefined),
    vi.spyOn(console, 'warn').mockImplementation(() => undefined),
  ]
})

afterEach(() => {
  const calls = spies.flatMap((spy) => spy.mock.calls)
  vi.restoreAllMocks()
  expect(calls, 'stray console output').toEqual([])
})
