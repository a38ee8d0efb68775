import { formatMoney } from '#core/money/format-money'
import {
  type MoneyGap,
  type PriceOutcome,
  costGaps,
} from '#core/money/job-money'
import { lengthOfTime } from '#core/time/length-of-time'

/** What a price brings: profit, margin and mark-up each by its own name, and the hourly result. */
export function OutcomeView({
  title,
  outcome,
  minutes,
  gaps,
  currency,
}: {
  readonly title: string
  readonly outcome: PriceOutcome
  /** The hands-on time that is known. */
  readonly minutes: number
  readonly gaps: readonly MoneyGap[]
  readonly currency: string
}) {
  const { profitMinor, marginPercent, markUpPercent, hourlyMinor } = outcome
  const isHoursOpen = gaps.includes('hours')
  const isCostOpen = gaps.some((gap) => costGaps.includes(gap))
  const atMost = (isUnsure: boolean) => (isUnsure ? 'at most ' : '')
  const result = (minor: number, isUnsure: boolean) =>
    `${atMost(isUnsure)}${formatMoney(minor, currency)}`
  const isOpen = isHoursOpen || isCostOpen
  const rows = [
    ['Left for your own work', result(outcome.earnedMinor, isCostOpen)],
    ...(hourlyMinor === null
      ? []
      : [
          [
            isHoursOpen
              ? `An hour, of the ${lengthOfTime(minutes)} known so far`
              : 'That is, an hour',
            result(hourlyMinor, isOpen),
          ],
        ]),
    ...(profitMinor === null
      ? []
      : [
          [
            profitMinor < 0
              ? 'Loss, your hours counted'
              : 'Profit, your hours counted',
            result(profitMinor, isOpen),
          ],
        ]),
    ...(marginPercent === null
      ? []
      : [['Margin, of the price', `${atMost(isOpen)}${marginPercent}\u00a0%`]]),
    ...(markUpPercent === null
      ? []
      : [
          ['Mark-up, on the costs', `${atMost(isOpen)}${markUpPercent}\u00a0%`],
        ]),
  ]
  return (
    // Large text leaves the screen no room for its margin as well as for a price.
    <section
      className="card min-w-0 px-[min(1rem,5vw)] py-4 wrap-anywhere"
      aria-label={title}
    >
      <h3 className="text-ink-soft font-semibold">{title}</h3>
      <p className="text-title font-bold">
        {formatMoney(outcome.priceMinor, currency)}
      </p>
      <dl className="mt-2 flex flex-col gap-1">
        {rows.map(([name, value]) => (
          <div key={name} className="flex flex-wrap justify-between gap-x-3">
            {/* In large text the amount goes below its name before its figures part. */}
            <dt className="text-ink-soft flex-[1_1_6rem]">{name}</dt>
            <dd className="ml-auto text-right font-semibold tabular-nums">
              {value}
            </dd>
          </div>
        ))}
      </dl>
      <details className="mt-2">
        <summary className="link flex min-h-12 cursor-pointer items-center">
          The arithmetic
        </summary>
        <ul className="text-small break-words">
          {outcome.arithmetic.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
    </section>
  )
}
