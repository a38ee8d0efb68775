import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import type { Work } from './work-to-kill'

/** Processes that do some work and are killed in the middle of it; each is loaded before its work begins. */
export type Killing = {
  /** Does the work to its end; gives how long that took, in milliseconds. */
  readonly finish: (root: string, work: Work) => Promise<number>
  /** Kills the work after so many milliseconds; gives whether it was still at it. */
  readonly killAfter: (
    milliseconds: number,
    root: string,
    work: Work,
  ) => Promise<boolean>
  readonly end: () => void
}

/** Makes ready to kill. End it when all is done. */
export function startKilling(): Killing {
  let next = load()
  const begin = async (root: string, work: Work) => {
    const { child, loaded } = next
    await loaded
    next = load()
    // Its loading would slow the work down, and the moments of the kills would bunch at its beginning.
    await next.loaded
    const begun = answerOf(child)
    child.send({ ...work, root })
    await begun
    return child
  }
  return {
    finish: async (root, work) => {
      const child = await begin(root, work)
      const since = performance.now()
      await answerOf(child)
      const took = performance.now() - since
      await killed(child)
      return took
    },
    killAfter: async (milliseconds, root, work) => {
      const child = await begin(root, work)
      const done = answerOf(child).then(() => false)
      const stillAtIt = await Promise.race([
        done,
        wait(milliseconds).then(() => true),
      ])
      // Killed now, it gives no answer any more.
      done.catch(() => undefined)
      await killed(child)
      return stillAtIt
    },
    end: () => {
      next.loaded.catch(() => undefined)
      next.child.kill('SIGKILL')
    },
  }
}

function load(): { child: ChildProcess; loaded: Promise<unknown> } {
  const child = fork(path.join('tests', 'support', 'work-to-kill.ts'), [], {
    execArgv: ['--import', 'tsx', '--conditions=react-server'],
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  })
  return { child, loaded: answerOf(child) }
}

/** The next word of a process; one that dies by itself is a fault of its own, and not to be waited for. */
async function answerOf(child: ChildProcess): Promise<unknown> {
  const death = once(child, 'exit').then(() => {
    throw new Error('the process died before it was killed')
  })
  return Promise.race([once(child, 'message'), death])
}

async function killed(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const gone = once(child, 'exit')
  child.kill('SIGKILL')
  await gone
}
