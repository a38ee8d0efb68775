import type { Journal } from '#core/journal/journal'
import { fractionOf, over, roundHalfAway, times } from '#core/money/fraction'
import { minutesPerHour } from '#core/units'
import { isOuter } from '#core/write-ups/appearance'
import { type Layer, surfaceWork } from '#core/write-ups/surface-work'

/** What a sold job was and earned. */
export type SoldJob = {
  readonly id: string
  readonly title: string
  /** Sideboard, bench: in small letters, each once. */
  readonly kinds: readonly string[]
  /** Painted, stained and clear-coated: of what is looked at, each once. */
  readonly finishes: readonly string[]
  /** What was left for one's own work, in minor units. */
  readonly earnedMinor: number
  readonly minutes: number
}

/** Sold jobs that have something in common, and what an hour on them brought. */
export type PayGroup = {
  readonly name: string
  readonly jobs: readonly (SoldJob & { readonly hourlyMinor: number })[]
  readonly minutes: number
  readonly earnedMinor: number
  /** All that they earned over all their hours: a long job counts as long as it took. */
  readonly hourlyMinor: number
}

/**
 * What an hour brought on the sold jobs of each kind, the best first. A job of two kinds counts in both: nobody knows
 * which of them the buyer paid for. Jobs without hours are left out.
 */
export function whatPays(
  jobs: readonly SoldJob[],
  namesOf: (job: SoldJob) => readonly string[],
): readonly PayGroup[] {
  const groups = new Map<string, PayGroup['jobs']>()
  for (const job of jobs) {
    if (job.minutes === 0) continue
    const hourlyMinor = hourly(job.earnedMinor, job.minutes)
    for (const name of new Set(namesOf(job))) {
      groups.set(name, [...(groups.get(name) ?? []), { ...job, hourlyMinor }])
    }
  }
  return [...groups]
    .map(([name, own]) => {
      const minutes = own.reduce((sum, job) => sum + job.minutes, 0)
      const earnedMinor = own.reduce((sum, job) => sum + job.earnedMinor, 0)
      return {
        name,
        jobs: own,
        minutes,
        earnedMinor,
        hourlyMinor: hourly(earnedMinor, minutes),
      }
    })
    .sort(
      (one, other) =>
        other.hourlyMinor - one.hourlyMinor ||
        one.name.localeCompare(other.name, 'en'),
    )
}

function hourly(earnedMinor: number, minutes: number): number {
  return Number(
    roundHalfAway(
      over(
        times(fractionOf(earnedMinor), fractionOf(minutesPerHour)),
        fractionOf(minutes),
      ),
    ),
  )
}

/** The kinds of a job's pieces, in small letters, each once. */
export function kindsOf({ pieces }: Journal): readonly string[] {
  return [
    ...new Set(
      pieces.flatMap(({ kind }) => {
        const words = kind.trim().toLowerCase()
        return words === '' ? [] : [words]
      }),
    ),
  ]
}

const layerWords: Readonly<Record<Layer['kind'], string>> = {
  primed: 'primed',
  painted: 'painted',
  stained: 'stained',
  glazed: 'glazed',
  sealed: 'sealed',
  clear: 'clear-coated',
  waxed: 'waxed',
  finished: 'finished',
  lined: 'lined',
}

/** The finishes of what is looked at on a job, each once: `painted`, `stained and clear-coated`. */
export function finishesOf(journal: Journal): readonly string[] {
  return [
    ...new Set(
      surfaceWork(journal)
        .filter(({ surface, layers }) => isOuter(surface) && layers.length > 0)
        .map(({ layers }) =>
          [...new Set(layers.map(({ kind }) => layerWords[kind]))].join(
            ' and ',
          ),
        ),
    ),
  ]
}
