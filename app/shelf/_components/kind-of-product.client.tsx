'use client'

import { type ReactNode, createContext, useContext, useState } from 'react'
import {
  type AskedOfLabel,
  askedOfLabel,
  usualPackUnit,
} from '#core/shelf/asked-of-label'
import {
  type AmountUnit,
  type Chemistry,
  type ProductCategory,
  amountUnits,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import { driesOn } from '#core/shelf/suits-step'
import {
  DurationField,
  SelectField,
  type TypedDuration,
  UnitChoice,
} from '../../_components/field.client'

const Category = createContext<ProductCategory>('paint')
const Everything = createContext(false)

/** What a product is for and how it dries, and above the rest of its form: what does not dry on the piece is not asked how. */
export function KindOfProduct({
  category,
  chemistry,
  asksEverything,
  children,
}: {
  readonly category: ProductCategory
  /** Absent for a new product: it decides every wait, so nothing is chosen beforehand. */
  readonly chemistry: Chemistry | undefined
  /** Whether the whole label is shown, though such a product has none: something of it is kept. */
  readonly asksEverything: boolean
  readonly children: ReactNode
}) {
  const [chosen, setChosen] = useState(category)
  return (
    <Category value={chosen}>
      <Everything value={asksEverything}>
        <div className="field-row field-row-wide">
          <SelectField
            name="category"
            label="What it is for"
            options={productCategories.map(optionOf)}
            defaultValue={category}
            onChange={(value) => {
              setChosen(
                productCategories.find((one) => one === value) ?? 'other',
              )
            }}
          />
          {driesOn(chosen) ? (
            <SelectField
              name="chemistry"
              label="How it dries"
              hint="The label’s clean-up line tells: water, spirit or alcohol."
              options={[
                ...(chemistry === undefined
                  ? [{ value: '', text: 'Choose …' }]
                  : []),
                ...chemistries.map(optionOf),
              ]}
              defaultValue={chemistry ?? ''}
            />
          ) : (
            <input
              type="hidden"
              name="chemistry"
              value={chemistry ?? 'other'}
            />
          )}
        </div>
        {children}
      </Everything>
    </Category>
  )
}

const order: readonly AskedOfLabel[] = ['nothing', 'wait', 'everything']

/** Fields that are asked for and sent only where a label is looked at so closely; what was typed into them stays. */
export function AskedFrom({
  least,
  children,
}: {
  readonly least: AskedOfLabel
  readonly children: ReactNode
}) {
  const category = useContext(Category)
  const asksEverything = useContext(Everything)
  const isAsked =
    asksEverything ||
    order.indexOf(askedOfLabel(category)) >= order.indexOf(least)
  return (
    <fieldset className="contents" disabled={!isAsked} hidden={!isAsked}>
      {children}
    </fieldset>
  )
}

/** How long the label has one wait for a coat: what is washed off again is coated once, and not recoated. */
export function CoatAfter(typed: TypedDuration) {
  const stays = driesOn(useContext(Category))
  return (
    <DurationField
      name="label.recoatMinutes"
      label={stays ? 'Recoat no sooner than' : 'Coat no sooner than'}
      {...(!stays && { hint: 'Counted from when it was rinsed off.' })}
      {...typed}
    />
  )
}

/** What a pack is counted in: by what the product is for, where nobody has said. */
export function PackUnit({ unit }: { readonly unit: AmountUnit | undefined }) {
  const category = useContext(Category)
  const usual = unit ?? usualPackUnit(category)
  return (
    <UnitChoice
      key={usual}
      name="pack.unit"
      label="Unit of the pack"
      units={amountUnits}
      defaultValue={usual}
    />
  )
}

function optionOf(value: string) {
  return { value, text: value.replaceAll('-', ' ') }
}
