import Link from 'next/link'
import { notFound } from 'next/navigation'
import { formatMoney, moneyDigits } from '#core/money/format-money'
import { costKinds } from '#core/money/job-books'
import { type MoneyGap, costGaps, entryMinor } from '#core/money/job-money'
import { minorUnitsOf } from '#core/money/minor-units-of'
import { lengthOfTime } from '#core/time/length-of-time'
import { dayInFull } from '#core/time/moments'
import { present } from '#services/database/instants'
import { readMoney } from '#services/money/money'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import { SelectField, TextField } from '../../../_components/field.client'
import { requireLocalRequest } from '../../../_session'
import { CostTable, lineNames } from './_components/cost-table'
import { HoursForm } from './_components/hours-form'
import { OutcomeView } from './_components/outcome-view'
import {
  addCostAction,
  addWorkAction,
  changeSaleAction,
  removeCostAction,
  removeWorkAction,
} from './actions'

/** A column that large text has no room for; what it says then stands under the first. */
const roomy = 'hidden @min-[14rem]:table-cell'

export default async function MoneyPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/money'>) {
  await requireLocalRequest()
  const { job } = await params
  const asked = await searchParams
  const first = await readMoney(job)
  if (first === undefined) notFound()
  const { currency } = first.settings
  const suppose = present({
    hourlyMinor: moneyIn(asked['hourly'], currency),
    priceMinor: moneyIn(asked['price'], currency),
  })
  const found =
    Object.keys(suppose).length === 0 ? first : await readMoney(job, suppose)
  if (found === undefined) notFound()
  const { money, journal, books } = found
  const { breakEven, outlayBreakEven, asking, sold, supposed } = money
  const show = (minor: number) => formatMoney(minor, currency)
  // What is not known of costs and hours can only make the lowest price higher.
  const isFloorOpen = money.gaps.some(
    (gap) => costGaps.includes(gap) || (gap === 'hours' && breakEven !== null),
  )
  const atLeast = (minor: number) =>
    `${isFloorOpen ? 'at least ' : ''}${show(minor)}`
  const arithmetic = (breakEven ?? outlayBreakEven)?.arithmetic ?? ''
  const pieceOptions = [
    { value: '', text: 'all pieces' },
    ...money.pieces.map(({ id, name }) => ({ value: id, text: name })),
  ]
  const own = books.sale
  const { soldAt } = journal.job
  // With an even number of cards beside it the first has a line to itself, so that they fill two columns.
  const outcomes = [sold, asking, supposed].filter((one) => one !== null).length
  return (
    <div className="flex max-w-4xl flex-col gap-10">
      <section aria-labelledby="in-short" className="flex flex-col gap-4">
        <h2 id="in-short" className="text-lead font-bold">
          What it must bring
        </h2>
        {money.gaps.length > 0 && (
          <div className="border-line-strong bg-well rounded-card border-2 p-4">
            <p className="font-bold">Not the whole sum yet</p>
            <ul className="mt-1 list-disc pl-5">
              {money.gaps.map((gap) => (
                <li key={gap}>{gapWords[gap]}</li>
              ))}
            </ul>
          </div>
        )}
        {soldAt !== undefined && sold === null && (
          <p className="border-line-strong bg-well rounded-card border-2 p-4">
            It was sold on {dayInFull(soldAt, found.settings)}.{' '}
            <a href="#sale" className="link-in-line">
              Write down what for
            </a>
            , and what you really earned stands here.
          </p>
        )}
        <div className="grid gap-4 sm:grid-cols-2">
          <section
            className={`card min-w-0 px-[min(1rem,5vw)] py-4 wrap-anywhere ${outcomes % 2 === 0 ? 'sm:col-span-2' : ''}`}
            aria-label="Lowest price"
          >
            <h3 className="text-ink-soft font-semibold">
              {breakEven === null
                ? 'Lowest price, your hours unpaid'
                : 'Lowest price at which your hours are paid'}
            </h3>
            <p className="text-title font-bold">
              {breakEven !== null
                ? atLeast(breakEven.priceMinor)
                : outlayBreakEven !== null
                  ? atLeast(outlayBreakEven.priceMinor)
                  : 'none: the fees take it all'}
            </p>
            {arithmetic !== '' && (
              <p className="text-ink-soft text-small break-words">
                {arithmetic}
              </p>
            )}
            {breakEven !== null && outlayBreakEven !== null && (
              <p className="mt-2">
                Below {show(outlayBreakEven.priceMinor)} you pay for working on
                it.
              </p>
            )}
          </section>
          {sold !== null && (
            <OutcomeView
              title="Sold: what was really earned"
              outcome={sold}
              minutes={money.hours.minutes}
              gaps={money.gaps}
              currency={currency}
            />
          )}
          {asking !== null && (
            <OutcomeView
              title="At the asking price"
              outcome={asking}
              minutes={money.hours.minutes}
              gaps={money.gaps}
              currency={currency}
            />
          )}
          {supposed !== null && (
            <OutcomeView
              title="At the price you try"
              outcome={supposed}
              minutes={money.hours.minutes}
              gaps={money.gaps}
              currency={currency}
            />
          )}
        </div>
        <form
          method="get"
          className="grid items-end gap-3 sm:grid-cols-[1fr_1fr_auto]"
          aria-label="Try a rate or a price"
        >
          <label className="flex flex-col gap-1.5 font-semibold">
            If an hour is to earn ({currency})
            <input
              name="hourly"
              inputMode="decimal"
              autoComplete="off"
              className="input"
              defaultValue={
                suppose.hourlyMinor === undefined
                  ? ''
                  : moneyDigits(suppose.hourlyMinor, currency)
              }
              placeholder={
                found.rates.hourlyMinor === undefined
                  ? ''
                  : moneyDigits(found.rates.hourlyMinor, currency)
              }
            />
          </label>
          <label className="flex flex-col gap-1.5 font-semibold">
            If it sells for ({currency})
            <input
              name="price"
              inputMode="decimal"
              autoComplete="off"
              className="input"
              defaultValue={
                suppose.priceMinor === undefined
                  ? ''
                  : moneyDigits(suppose.priceMinor, currency)
              }
            />
          </label>
          <button className="button">Try it</button>
        </form>
        {money.targets.length > 0 && (
          <details className="@container">
            <summary className="link flex min-h-12 cursor-pointer items-center">
              Prices for a margin
            </summary>
            <table className="mt-2 w-full max-w-xl text-left wrap-anywhere">
              <caption className="text-ink-soft pb-2 text-left">
                A margin is a share of the price, a mark-up a share of the
                costs: the same profit, two numbers.
              </caption>
              <thead>
                <tr className="text-ink-soft text-small">
                  <th className="py-1 pr-3 font-semibold">Margin</th>
                  <th className={`${roomy} py-1 pr-3 text-right font-semibold`}>
                    Mark-up
                  </th>
                  <th className="py-1 text-right font-semibold">Price</th>
                </tr>
              </thead>
              <tbody>
                {money.targets.map((target) => (
                  <tr
                    key={target.marginPercent}
                    className="border-line border-t"
                  >
                    <td className="py-2 pr-3">
                      {target.marginPercent}&nbsp;%
                      {target.markUpPercent !== null && (
                        <span className="text-ink-soft text-small block @min-[14rem]:hidden">
                          Mark-up {target.markUpPercent}&nbsp;%
                        </span>
                      )}
                    </td>
                    <td
                      className={`${roomy} py-2 pr-3 text-right whitespace-nowrap tabular-nums`}
                    >
                      {target.markUpPercent === null
                        ? '–'
                        : `${target.markUpPercent} %`}
                    </td>
                    <td className="py-2 text-right whitespace-nowrap tabular-nums">
                      {show(target.priceMinor)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
        )}
      </section>

      <section aria-labelledby="costs" className="flex flex-col gap-4">
        <h2 id="costs" className="text-lead font-bold">
          What it cost
        </h2>
        {money.lines.length > 0 && (
          <CostTable money={money} currency={currency} />
        )}
        {money.pieces.length > 1 && money.lines.length > 0 && (
          <div className="overflow-x-auto">
            <table className="w-full max-w-xl text-left">
              <caption className="pb-1 text-left font-semibold">
                By piece
              </caption>
              <thead>
                <tr className="text-ink-soft text-small">
                  <th className="py-1 pr-3 font-semibold">Piece</th>
                  <th className="py-1 pr-3 text-right font-semibold">Hours</th>
                  <th className="py-1 pr-3 text-right font-semibold">Costs</th>
                  <th className="py-1 text-right font-semibold">
                    Lowest price
                  </th>
                </tr>
              </thead>
              <tbody>
                {money.byPiece.map((share, index) => (
                  <tr
                    key={money.pieces[index]?.id}
                    className="border-line border-t"
                  >
                    <td className="py-2 pr-3">{money.pieces[index]?.name}</td>
                    <td className="py-2 pr-3 text-right whitespace-nowrap tabular-nums">
                      {lengthOfTime(share.minutes)}
                    </td>
                    <td className="py-2 pr-3 text-right whitespace-nowrap tabular-nums">
                      {show(share.costMinor)}
                    </td>
                    <td className="py-2 text-right tabular-nums">
                      {share.floorMinor === null ? '–' : show(share.floorMinor)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        )}
        {books.costs.length > 0 && (
          <details>
            <summary className="link flex min-h-12 cursor-pointer items-center">
              Take a cost out
            </summary>
            <ul className="mt-2 flex flex-col gap-2">
              {books.costs.map((cost) => (
                <li key={cost.id}>
                  <form
                    action={removeCostAction.bind(null, job, cost.id)}
                    className="flex flex-wrap items-center justify-between gap-3"
                  >
                    <span className="min-w-0 flex-[1_1_8rem] break-words">
                      {cost.words === '' ? kindName(cost.kind) : cost.words}
                      {', '}
                      {show(entryMinor(cost))}
                    </span>
                    <button
                      className="button shrink-0"
                      aria-label={`Remove ${cost.words === '' ? kindName(cost.kind) : cost.words}`}
                    >
                      Remove
                    </button>
                  </form>
                </li>
              ))}
            </ul>
          </details>
        )}
        <details open={books.costs.length === 0}>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            Add a cost
          </summary>
          <ActionForm
            action={addCostAction.bind(null, job)}
            label="Add a cost"
            className="mt-2 flex flex-col gap-4"
          >
            <div className="grid gap-4 sm:grid-cols-2">
              <SelectField
                name="cost.kind"
                label="Kind"
                options={costKinds.map((kind) => ({
                  value: kind,
                  text: kindName(kind),
                }))}
                defaultValue="acquisition"
              />
              <TextField
                name="cost.words"
                label="What it was"
                maxLength={120}
                autoComplete="off"
                optional
              />
              <TextField
                name="cost.quantity"
                label="How many"
                inputMode="decimal"
                placeholder="1"
                autoComplete="off"
                optional
              />
              <TextField
                name="cost.eachMinor"
                label="Price of one"
                unit={currency}
                inputMode="decimal"
                autoComplete="off"
              />
              {money.pieces.length > 1 && (
                <SelectField
                  name="cost.piece"
                  label="For"
                  options={pieceOptions}
                  defaultValue=""
                />
              )}
            </div>
            <p className="text-ink-soft text-small">
              Products come from the steps. What was given to you cost 0; travel
              is distance times your rate. Hours have their own list below.
            </p>
            <div>
              <SubmitButton>Add the cost</SubmitButton>
            </div>
          </ActionForm>
        </details>
      </section>

      <section aria-labelledby="hours" className="flex flex-col gap-4">
        <h2 id="hours" className="text-lead font-bold">
          Hours: {lengthOfTime(money.hours.minutes)}
        </h2>
        <p className="text-ink-soft max-w-prose">
          Hands-on time only: drying is no work. A step’s photos tell from the
          first to the last; type the minutes where you know better.
        </p>
        {money.hours.steps.length > 0 && (
          <details>
            <summary className="link flex min-h-12 cursor-pointer items-center">
              Hours by step
            </summary>
            <div className="mt-2">
              <HoursForm
                journal={journal}
                hours={money.hours}
                corrections={books.hours}
              />
            </div>
          </details>
        )}
        {books.work.length > 0 && (
          <ul className="flex flex-col gap-2" aria-label="Other work">
            {books.work.map((work) => (
              <li key={work.id}>
                <form
                  action={removeWorkAction.bind(null, job, work.id)}
                  className="flex flex-wrap items-center justify-between gap-3"
                >
                  <span className="min-w-0 flex-[1_1_8rem] break-words">
                    {work.words}, {lengthOfTime(work.minutes)}
                  </span>
                  <button
                    className="button shrink-0"
                    aria-label={`Remove ${work.words}`}
                  >
                    Remove
                  </button>
                </form>
              </li>
            ))}
          </ul>
        )}
        <details>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            Add work that is no step
          </summary>
          <ActionForm
            action={addWorkAction.bind(null, job)}
            label="Add work that is no step"
            className="mt-2 flex flex-col gap-4"
          >
            <div className="grid gap-4 sm:grid-cols-2">
              <TextField
                name="work.words"
                label="What it was"
                hint="Fetching, photographing, listing."
                maxLength={120}
                autoComplete="off"
              />
              <TextField
                name="work.minutes"
                label="How long"
                hint="Drives both ways."
                unit="min"
                inputMode="numeric"
                autoComplete="off"
              />
              {money.pieces.length > 1 && (
                <SelectField
                  name="work.piece"
                  label="On"
                  options={pieceOptions}
                  defaultValue=""
                />
              )}
            </div>
            <div>
              <SubmitButton>Add the work</SubmitButton>
            </div>
          </ActionForm>
        </details>
      </section>

      <section aria-labelledby="sale" className="flex flex-col gap-4">
        <h2 id="sale" className="text-lead font-bold">
          The sale
        </h2>
        {sold !== null && soldAt === undefined && (
          <p className="max-w-prose">
            The day it was sold is not written down; until it is, the listing
            offers the job to buyers.{' '}
            <Link
              prefetch={false}
              href={`/jobs/${job}/details#finished`}
              className="link-in-line"
            >
              Write it down
            </Link>
          </p>
        )}
        <ActionForm
          action={changeSaleAction.bind(null, job)}
          label="The sale"
          className="flex flex-col gap-4"
        >
          <div className="field-row field-row-wide">
            <TextField
              name="sale.priceMinor"
              label="Sold for"
              unit={currency}
              inputMode="decimal"
              autoComplete="off"
              defaultValue={moneyText(own.priceMinor, currency)}
              optional
            />
            <TextField
              name="sale.feesPaidMinor"
              label="Fees as charged"
              unit={currency}
              inputMode="decimal"
              autoComplete="off"
              placeholder={
                sold === null ? '' : moneyDigits(sold.feesMinor, currency)
              }
              defaultValue={moneyText(own.feesPaidMinor, currency)}
              optional
            />
            <TextField
              name="sale.taxMinor"
              label="Tax in the price"
              hint="What you hand on; no income. Your own rules say how much."
              unit={currency}
              inputMode="decimal"
              autoComplete="off"
              defaultValue={moneyText(own.taxMinor, currency)}
              optional
            />
            <TextField
              name="sale.feePercent"
              label="Fee, share"
              unit="%"
              inputMode="decimal"
              autoComplete="off"
              placeholder={String(found.rates.feePercent ?? 0)}
              defaultValue={own.feePercent?.toString() ?? ''}
            />
            <TextField
              name="sale.feeFixedMinor"
              label="Fee, fixed"
              unit={currency}
              inputMode="decimal"
              autoComplete="off"
              placeholder={moneyDigits(
                found.rates.feeFixedMinor ?? 0,
                currency,
              )}
              defaultValue={moneyText(own.feeFixedMinor, currency)}
            />
          </div>
          <div>
            <SubmitButton>Save the sale</SubmitButton>
          </div>
        </ActionForm>
        <p className="text-ink-soft max-w-prose">
          No tax advice. Your hourly rate, overhead and usual fees stand in{' '}
          <Link prefetch={false} href="/workshop#rates" className="link">
            Workshop
          </Link>
          ; nothing on this page is ever part of a listing, a video description
          or a sheet.
        </p>
      </section>
    </div>
  )
}

const gapWords: Readonly<Record<MoneyGap, string>> = {
  acquisition: 'What you paid for it is not written down; a gift cost 0.',
  'hourly rate':
    'Your hour has no rate yet: set it in Workshop, or try one below.',
  overhead: 'Rent, power and tools are not counted: set them in Workshop.',
  hours: 'Some steps have no time yet, so the hours are at least these.',
  amounts:
    'Some products were used without an amount, and nothing lets it be reckoned.',
  prices:
    'Some products have no pack and price on the shelf, or an amount that does not fit the pack.',
}

function kindName(kind: (typeof costKinds)[number]): string {
  return kind === 'selling' ? 'Selling' : lineNames[kind]
}

function moneyText(minor: number | undefined, currency: string): string {
  return minor === undefined ? '' : moneyDigits(minor, currency)
}

/** An amount of money out of the address; undefined where it is none. */
function moneyIn(
  typed: string | readonly string[] | undefined,
  currency: string,
): number | undefined {
  return typeof typed === 'string'
    ? minorUnitsOf(typed.trim().replace(',', '.'), currency)
    : undefined
}
