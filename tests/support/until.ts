import { vi } from 'vitest'

/** How long a test waits for what happens by itself before it gives up: it ends a test that hangs, and measures nothing. */
const patienceMilliseconds = 120_000

/** Resolves once what is asked holds; rejects with its last failure when it does not come to hold. */
export async function until(holds: () => void | Promise<void>): Promise<void> {
  await vi.waitFor(holds, { timeout: patienceMilliseconds, interval: 20 })
}
