import type { PayGroup } from '#core/money/what-pays'

/** One bar of a plot and a dot for each job behind it. Lengths across, in units of the drawing. */
export type PayBar = {
  readonly group: PayGroup
  /** From the zero line to the mean, whichever comes first from the left. */
  readonly left: number
  readonly width: number
  /** The middle of each dot. */
  readonly dots: readonly number[]
}

/** A plot of what an hour brings. */
export type PayPlot = {
  readonly width: number
  readonly bars: readonly PayBar[]
  /** Where nothing is earned. */
  readonly zero: number
  /** Where the wanted rate lies; absent while there is none. */
  readonly wanted?: number
}

const width = 340
const margin = 6

/**
 * Where the bars of a plot lie: one for each group, from the zero line, with a dot for each job, so that a mean of one job
 * does not look like a rule. One scale for all, which holds zero, the wanted rate and every job.
 */
export function planPayPlot(
  groups: readonly PayGroup[],
  wantedMinor: number | undefined,
): PayPlot {
  const values = [
    0,
    ...(wantedMinor === undefined ? [] : [wantedMinor]),
    ...groups.flatMap((group) => [
      group.hourlyMinor,
      ...group.jobs.map((job) => job.hourlyMinor),
    ]),
  ]
  const low = Math.min(...values)
  const high = Math.max(...values)
  const scale = (width - 2 * margin) / Math.max(1, high - low)
  const at = (minor: number) => margin + (minor - low) * scale
  return {
    width,
    bars: groups.map((group) => ({
      group,
      left: Math.min(at(0), at(group.hourlyMinor)),
      width: Math.abs(at(group.hourlyMinor) - at(0)),
      dots: group.jobs.map((job) => at(job.hourlyMinor)),
    })),
    zero: at(0),
    ...(wantedMinor !== undefined && { wanted: at(wantedMinor) }),
  }
}
