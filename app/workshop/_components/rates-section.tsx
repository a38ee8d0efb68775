import { moneyDigits } from '#core/money/format-money'
import type { Rates } from '#core/money/job-books'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextField } from '../../_components/field.client'
import { changeRatesAction } from '../actions'

/** What an hour and a sale cost in the workshop. */
export function RatesSection({
  rates,
  currency,
}: {
  readonly rates: Rates
  readonly currency: string
}) {
  const money = (minor: number | undefined) =>
    minor === undefined ? '' : moneyDigits(minor, currency)
  const number = (value: number | undefined) => value?.toString() ?? ''
  return (
    <section id="rates" aria-labelledby="rates-title">
      <h2 id="rates-title" className="text-lead mb-1 font-bold">
        Rates
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        What the Money screen of every job reckons with. They stay here.
      </p>
      <ActionForm
        action={changeRatesAction}
        className="flex flex-col gap-4"
        label="Rates"
      >
        <div className="grid items-end gap-4 sm:grid-cols-2">
          <TextField
            name="hourlyMinor"
            label="An hour of yours is to earn"
            unit={currency}
            inputMode="decimal"
            autoComplete="off"
            defaultValue={money(rates.hourlyMinor)}
          />
          <TextField
            name="productiveHours"
            label="Hands-on hours a year"
            unit="h"
            inputMode="decimal"
            autoComplete="off"
            defaultValue={number(rates.productiveHours)}
          />
          <TextField
            name="yearlyOverheadMinor"
            label="Overhead a year"
            hint="Rent, power, insurance, tools."
            unit={currency}
            inputMode="decimal"
            autoComplete="off"
            defaultValue={money(rates.yearlyOverheadMinor)}
          />
          <div className="field-row field-row-narrow">
            <TextField
              name="feePercent"
              label="Selling fee"
              unit="%"
              inputMode="decimal"
              autoComplete="off"
              defaultValue={number(rates.feePercent)}
            />
            <TextField
              name="feeFixedMinor"
              label="and fixed"
              unit={currency}
              inputMode="decimal"
              autoComplete="off"
              defaultValue={money(rates.feeFixedMinor)}
            />
          </div>
          <div className="field-row field-row-narrow">
            <TextField
              name="setUpMinutes"
              label="Spray set-up"
              unit="min"
              inputMode="numeric"
              autoComplete="off"
              defaultValue={number(rates.setUpMinutes)}
            />
            <TextField
              name="cleanUpMinutes"
              label="and clean-up"
              unit="min"
              inputMode="numeric"
              autoComplete="off"
              defaultValue={number(rates.cleanUpMinutes)}
            />
          </div>
        </div>
        <div>
          <SubmitButton>Save the rates</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
