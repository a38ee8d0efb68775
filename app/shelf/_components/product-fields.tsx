import {
  type Label,
  type Product,
  type RecoatWindow,
} from '#core/shelf/product'
import { askedOfLabel } from '#core/shelf/asked-of-label'
import { lengthOfTime } from '#core/time/length-of-time'
import { moneyDigits } from '#core/money/format-money'
import type { Units } from '#core/measures/units-of-measure'
import {
  DurationField,
  TextField,
  type TypedDuration,
} from '../../_components/field.client'
import {
  type LabelMeasure,
  measureText,
  spreadRateMeasure,
  temperatureMeasure,
} from '../_label-measures'
import {
  AskedFrom,
  CoatAfter,
  KindOfProduct,
  PackUnit,
} from './kind-of-product.client'

/** The fields of a product and its label. Times are typed as labels print them: hours, minutes or days. */
export function ProductFields({
  product,
  currency,
  units,
}: {
  readonly product?: Product
  readonly currency: string
  /** What temperatures and the spread rate are typed in. */
  readonly units: Units
}) {
  const label = asTyped(product?.label ?? {})
  const pack = product?.pack
  const windows =
    product === undefined || fitsForm(product.label)
      ? undefined
      : product.label.recoatWindows
  return (
    <div className="flex flex-col gap-6">
      <input type="hidden" name="units" value={units} />
      <TextField
        name="name"
        label="Name"
        hint="What it is, then its colour: waterborne enamel, deep teal."
        defaultValue={product?.name ?? ''}
        autoComplete="off"
        maxLength={120}
        required
      />
      <KindOfProduct
        category={product?.category ?? 'paint'}
        chemistry={product?.chemistry}
        asksEverything={
          product !== undefined &&
          askedOfLabel(product.category) !== 'everything' &&
          Object.keys(product.label).length > 0
        }
      >
        <AskedFrom least="wait">
          <fieldset className="card flex min-w-0 flex-col gap-4 p-4">
            <legend className="text-lead float-left w-full font-bold">
              What the label says
            </legend>
            <p className="text-ink-soft clear-both">
              Leave out what it does not say; nothing is guessed in its place.
            </p>
            {windows !== undefined && (
              <p>
                It allows the next coat {windows.map(windowWords).join('; ')}.
                These windows stay as they are.
                <input
                  type="hidden"
                  name="label.windows"
                  value={JSON.stringify(windows)}
                />
              </p>
            )}
            <div className="field-row field-row-wide">
              <AskedFrom least="wait">
                <CoatAfter {...inItsUnit(label.recoatMinutes)} />
              </AskedFrom>
              {times.map(({ name, text, hint, value }) => (
                <AskedFrom key={name} least="everything">
                  <DurationField
                    name={name}
                    label={text}
                    {...(hint === undefined ? {} : { hint })}
                    {...inItsUnit(value(label))}
                  />
                </AskedFrom>
              ))}
              <AskedFrom least="everything">
                <TextField
                  name="label.cureDays"
                  label="Full cure after"
                  unit="days"
                  inputMode="decimal"
                  defaultValue={textOf(label.cureDays)}
                />
              </AskedFrom>
            </div>
            <div className="field-row sm:grid-cols-2">
              <AskedFrom least="everything">
                <MeasureField
                  name="label.reference.celsius"
                  label="Times stated at"
                  measure={temperatureMeasure}
                  kept={label.reference?.celsius}
                  units={units}
                />
                <TextField
                  name="label.reference.humidity"
                  label="Stated humidity"
                  unit="%"
                  inputMode="decimal"
                  defaultValue={textOf(label.reference?.humidity)}
                />
                <MeasureField
                  name="label.minCelsius"
                  label="Not colder than"
                  measure={temperatureMeasure}
                  kept={label.minCelsius}
                  units={units}
                />
                <TextField
                  name="label.maxHumidity"
                  label="No damper than"
                  unit="%"
                  inputMode="decimal"
                  defaultValue={textOf(label.maxHumidity)}
                />
                <TextField
                  name="label.maxThinningPercent"
                  label="Thin by at most"
                  unit="%"
                  inputMode="decimal"
                  defaultValue={textOf(label.maxThinningPercent)}
                />
                <TextField
                  name="label.solidsPercent"
                  label="Volume solids"
                  unit="%"
                  inputMode="decimal"
                  defaultValue={textOf(
                    label.solidsByVolume === undefined
                      ? undefined
                      : Math.round(label.solidsByVolume * 1000) / 10,
                  )}
                />
              </AskedFrom>
              <MeasureField
                name="label.spreadSquareMetresPerLitre"
                label="Spread rate"
                measure={spreadRateMeasure}
                kept={label.spreadSquareMetresPerLitre}
                units={units}
              />
              <TextField
                name="label.densityKilogramsPerLitre"
                label="Density"
                unit="kg/l"
                inputMode="decimal"
                defaultValue={textOf(label.densityKilogramsPerLitre)}
              />
            </div>
          </fieldset>
        </AskedFrom>
        <div className="field-row field-row-wide">
          <TextField
            name="pack.amount"
            label="Pack holds"
            inputMode="decimal"
            defaultValue={textOf(pack?.amount.value)}
            unitChoice={<PackUnit unit={pack?.amount.unit} />}
            optional
          />
          <TextField
            name="pack.price"
            label="Price of a pack"
            unit={currency}
            inputMode="decimal"
            defaultValue={
              pack === undefined ? '' : moneyDigits(pack.priceMinor, currency)
            }
            optional
          />
          <TextField
            name="packsBought"
            label="Packs bought so far"
            inputMode="decimal"
            defaultValue={textOf(product?.packsBought)}
            optional
          />
        </div>
      </KindOfProduct>
      <TextField
        name="link"
        label="Link"
        hint="Where your viewers can find it."
        type="url"
        defaultValue={product?.link ?? ''}
        autoComplete="off"
        optional
      />
      <label className="flex min-h-12 items-center gap-3 font-semibold">
        <input
          type="checkbox"
          name="paidLink"
          value="yes"
          defaultChecked={product?.paidLink === true}
          className="size-6 shrink-0"
        />
        I earn something when a viewer buys through it
      </label>
    </div>
  )
}

const times: readonly {
  readonly name: string
  readonly text: string
  readonly hint?: string
  readonly value: (label: TypedLabel) => number | undefined
}[] = [
  {
    name: 'label.recoatByMinutes',
    text: 'Recoat no later than',
    value: (label) => label.recoatByMinutes,
  },
  {
    name: 'label.againMinutes',
    text: 'Second window opens after',
    hint: 'Only where the label gives two, as some aerosols do: “within 1 h or after 48 h”.',
    value: (label) => label.againMinutes,
  },
  {
    name: 'label.touchMinutes',
    text: 'Touch dry after',
    value: (label) => label.touchMinutes,
  },
  {
    name: 'label.sandMinutes',
    text: 'Sand after',
    value: (label) => label.sandMinutes,
  },
  {
    name: 'label.handleMinutes',
    text: 'Handle after',
    value: (label) => label.handleMinutes,
  },
]

/** A label as the form has it: with the second window that some labels open, as aerosol enamels do. */
type TypedLabel = Label & { readonly againMinutes?: number }

function asTyped(label: Label): TypedLabel {
  const [first, second] = label.recoatWindows ?? []
  return first === undefined || second === undefined || !fitsForm(label)
    ? label
    : {
        ...label,
        recoatMinutes: first.fromMinutes,
        ...(first.toMinutes === undefined
          ? {}
          : { recoatByMinutes: first.toMinutes }),
        againMinutes: second.fromMinutes,
      }
}

/** Whether the windows of a label are those that the form has fields for: one that ends, and one that does not. */
function fitsForm({ recoatWindows }: Label): boolean {
  const [first, second, ...more] = recoatWindows ?? []
  return (
    first?.toMinutes !== undefined &&
    second !== undefined &&
    second.toMinutes === undefined &&
    first.needs === undefined &&
    second.needs === undefined &&
    more.length === 0
  )
}

function windowWords({ fromMinutes, toMinutes, needs }: RecoatWindow): string {
  const until =
    toMinutes === undefined
      ? `from ${lengthOfTime(fromMinutes)} on`
      : `${lengthOfTime(fromMinutes)} to ${lengthOfTime(toMinutes)}`
  return needs === undefined ? until : `${until}, after a ${needs}`
}

/** A length of time as it is typed, in the unit in which it is a round number. */
function inItsUnit(minutes: number | undefined): TypedDuration {
  if (minutes === undefined) return { amount: '', unit: 'h' }
  const unit =
    minutes % 60 !== 0 || minutes === 0
      ? 'min'
      : minutes % 1440 === 0 && minutes > 4320
        ? 'days'
        : 'h'
  return { amount: String(minutes / { min: 1, h: 60, days: 1440 }[unit]), unit }
}

/** A number that is typed in the owner's units; what is kept goes along, so that nothing moves that was not touched. */
function MeasureField({
  name,
  label,
  measure,
  kept,
  units,
}: {
  readonly name: string
  readonly label: string
  readonly measure: LabelMeasure
  readonly kept: number | undefined
  readonly units: Units
}) {
  return (
    <>
      {kept !== undefined && (
        <input type="hidden" name={`${name}.was`} value={kept} />
      )}
      <TextField
        name={name}
        label={label}
        unit={measure.sign(units)}
        inputMode="decimal"
        defaultValue={measureText(measure, kept, units)}
      />
    </>
  )
}

function textOf(value: number | undefined): string {
  return value === undefined ? '' : String(value)
}
