import 'server-only'
import { letPixelsGo } from '#services/renditions/let-pixels-go'

/** Work that waits in line, a little at a time; the same work is never in line twice. */
export type RenditionQueue = {
  /**
   * Puts work at the end of the line, or, when somebody is waiting for it, before all that nobody waits for: those who
   * wait are served in the order they came. Resolves when it is done.
   */
  readonly add: (
    key: string,
    work: () => Promise<void>,
    urgent: boolean,
  ) => Promise<void>
  /** How much is in line or being done. */
  readonly length: () => number
  /** Resolves when nothing is in line or being done. */
  readonly idle: () => Promise<void>
}

/** Work that nobody waits for lets whoever brought it be answered first. */
const restMilliseconds = 25

type Waiting = {
  readonly key: string
  readonly run: () => Promise<void>
  readonly urgent: boolean
}

/**
 * A queue that works on so many things at once and no more: decoded photos are large, and the processor is needed for
 * whoever is looking at a page.
 */
export function renditionQueue(atOnce: number): RenditionQueue {
  let line: readonly Waiting[] = []
  const pending = new Map<string, Promise<void>>()
  let working = 0

  const next = () => {
    const [first, ...rest] = line
    if (first === undefined || working >= atOnce) return
    line = rest
    working += 1
    void first.run().finally(() => {
      working -= 1
      letPixelsGo()
      next()
    })
  }

  return {
    add: (key, work, urgent) => {
      const underWay = pending.get(key)
      if (underWay !== undefined) {
        if (urgent) {
          line = movedUp(line, key)
          next()
        }
        return underWay
      }
      const done = new Promise<void>((resolve, reject) => {
        const run = async () => {
          try {
            await work()
            resolve()
          } catch (error) {
            reject(error instanceof Error ? error : new Error(String(error)))
          }
        }
        line = ordered([...line, { key, run, urgent }])
      }).finally(() => pending.delete(key))
      pending.set(key, done)
      if (urgent) next()
      else setTimeout(next, restMilliseconds)
      return done
    },
    length: () => pending.size,
    idle: async () => {
      while (pending.size > 0) await Promise.allSettled(pending.values())
    },
  }
}

function movedUp(line: readonly Waiting[], key: string): readonly Waiting[] {
  return ordered(
    line.map((one) => (one.key === key ? { ...one, urgent: true } : one)),
  )
}

function ordered(line: readonly Waiting[]): readonly Waiting[] {
  return [
    ...line.filter((one) => one.urgent),
    ...line.filter((one) => !one.urgent),
  ]
}
