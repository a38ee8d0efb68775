import { formatMoney } from '#core/money/format-money'
import type { JobMoney, MoneyLine } from '#core/money/job-money'

/** What a kind of line is called. */
export const lineNames: Readonly<Record<MoneyLine['kind'], string>> = {
  acquisition: 'Acquisition',
  travel: 'Travel',
  consumables: 'Consumables',
  parts: 'Hardware and parts',
  other: 'Other',
  material: 'Material',
  labour: 'Your hours',
  overhead: 'Overhead',
}

/** Every cost of a job with its arithmetic; what was reckoned says so. */
export function CostTable({
  money,
  currency,
}: {
  readonly money: JobMoney
  readonly currency: string
}) {
  return (
    <table className="w-full text-left wrap-anywhere">
      <caption className="sr-only">Costs</caption>
      <thead>
        <tr className="text-ink-soft text-small">
          <th className="py-1 pr-3 font-semibold">What</th>
          <th className="py-1 text-right font-semibold">Amount</th>
        </tr>
      </thead>
      <tbody>
        {money.lines.map((line, index) => (
          <tr key={index} className="border-line border-t align-top">
            <td className="py-2 pr-3">
              <span className="font-semibold">
                {line.words === '' ? lineNames[line.kind] : line.words}
              </span>
              {line.isReckoned && (
                <span className="text-ink-soft"> · reckoned</span>
              )}
              <span className="text-ink-soft text-small block">
                {line.words === '' ? '' : `${lineNames[line.kind]} · `}
                {line.arithmetic}
              </span>
            </td>
            <td className="py-2 text-right whitespace-nowrap tabular-nums">
              {formatMoney(line.minor, currency)}
            </td>
          </tr>
        ))}
        <tr className="border-line-strong border-t-2 font-bold">
          <th scope="row" className="py-2 pr-3 font-bold">
            In all
          </th>
          <td className="py-2 text-right whitespace-nowrap tabular-nums">
            {formatMoney(money.costMinor, currency)}
          </td>
        </tr>
      </tbody>
    </table>
  )
}
