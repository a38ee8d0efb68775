import { formatMoney } from '#core/money/format-money'
import { planPayPlot } from '#core/money/plan-pay-plot'
import type { PayGroup } from '#core/money/what-pays'
import { lengthOfTime } from '#core/time/length-of-time'

/** In the units of the plot. */
const barHeight = 18

/** What an hour brings by kind: a plot for the eye, and the same in a table for reading. */
export function PayPlot({
  id,
  title,
  of,
  groups,
  wantedMinor,
  currency,
}: {
  readonly id: string
  readonly title: string
  /** What the groups are, as the head of their column. */
  readonly of: string
  readonly groups: readonly PayGroup[]
  readonly wantedMinor: number | undefined
  readonly currency: string
}) {
  const plot = planPayPlot(groups, wantedMinor)
  const show = (minor: number) => formatMoney(minor, currency)
  return (
    <section
      aria-labelledby={id}
      className="@container flex min-w-0 flex-col gap-3"
    >
      <h2 id={id} className="text-lead font-bold">
        {title}
      </h2>
      {/* Each name is written over its bar: words that are drawn grow and shrink with the drawing. */}
      <ul className="card flex max-w-xl flex-col gap-2 p-3" aria-hidden="true">
        {plot.bars.map((bar) => (
          <li key={bar.group.name}>
            <p className="px-1.5 font-semibold wrap-anywhere">
              {bar.group.name},{' '}
              <span className="whitespace-nowrap">
                {show(bar.group.hourlyMinor)}
              </span>
            </p>
            <svg
              viewBox={`0 -1 ${plot.width} ${barHeight + 4}`}
              className="w-full"
            >
              <rect
                x={bar.left}
                y={0}
                width={bar.width}
                height={barHeight}
                rx={3}
                fill="var(--press-soft)"
                stroke="var(--press)"
              />
              {plot.wanted !== undefined && (
                <line
                  x1={plot.wanted}
                  x2={plot.wanted}
                  y1={0}
                  y2={barHeight + 3}
                  stroke="var(--ink)"
                  strokeWidth={1.5}
                  strokeDasharray="4 3"
                />
              )}
              <line
                x1={plot.zero}
                x2={plot.zero}
                y1={0}
                y2={barHeight + 3}
                stroke="var(--ink)"
              />
              {bar.dots.map((middle, index) => (
                <circle
                  key={index}
                  cx={middle}
                  cy={barHeight / 2}
                  r={4}
                  fill="var(--press)"
                  stroke="var(--paper)"
                />
              ))}
            </svg>
          </li>
        ))}
      </ul>
      <table className="w-full max-w-xl text-left">
        <caption className="sr-only">{title}</caption>
        <thead>
          <tr className="text-ink-soft text-small">
            <th className="py-1 pr-3 font-semibold">{of}</th>
            <th className={`${roomy} py-1 pr-3 text-right font-semibold`}>
              Jobs
            </th>
            <th className={`${roomy} py-1 pr-3 text-right font-semibold`}>
              Hours
            </th>
            <th className="py-1 text-right font-semibold">An hour</th>
          </tr>
        </thead>
        <tbody>
          {groups.map((group) => (
            <tr key={group.name} className="border-line border-t">
              <td className="py-2 pr-3 wrap-anywhere">
                {group.name}
                <span className="text-ink-soft text-small block @min-[18rem]:hidden">
                  {jobsWords(group.jobs.length)}, {lengthOfTime(group.minutes)}
                </span>
              </td>
              <td className={`${roomy} py-2 pr-3 text-right tabular-nums`}>
                {group.jobs.length}
              </td>
              <td
                className={`${roomy} py-2 pr-3 text-right whitespace-nowrap tabular-nums`}
              >
                {lengthOfTime(group.minutes)}
              </td>
              <td className="py-2 text-right whitespace-nowrap tabular-nums">
                {show(group.hourlyMinor)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** A column that large text has no room for; what it says then stands under the name. */
const roomy = 'hidden @min-[18rem]:table-cell'

function jobsWords(count: number): string {
  return count === 1 ? '1 job' : `${count} jobs`
}
