import type { PayGroup } from '#core/money/what-pays'

/** One bar of a plot and a dot for each job behind it. Lengths in units of the drawing. */
export type PayBar = {
  readonly group: PayGroup
  readonly top: number
  /** From the zero line to the mean, whichever comes first from the left. */
  readonly left: number
  readonly width: number
  /** The middle of each dot. */
  readonly dots: readonly number[]
}

/** A plot of what an hour brings. */
export type PayPlot = {
  readonly width: number
  readonly height: number
  readonly barHeight: number
  readonly bars: readonly PayBar[]
  /** Where nothing is earned. */
  readonly zero: number
  /** Where the wanted rate lies; absent while there is none. */
  readonly wanted?: number
}

const width = 340
const margin = 6
const rowHeight = 46
const barHeight = 18
/** The name of a group stands above its bar. */
const nameHeight = 22

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
    height: groups.length * rowHeight,
    barHeight,
    bars: groups.map((group, index) => ({
      group,
      top: index * rowHeight + nameHeight,
      left: Math.min(at(0), at(group.hourlyMinor)),
      width: Math.abs(at(group.hourlyMinor) - at(0)),
      dots: group.jobs.map((job) => at(job.hourlyMinor)),
    })),
    zero: at(0),
    ...(wantedMinor !== undefined && { wanted: at(wantedMinor) }),
  }
}
