'use client'

import { useState } from 'react'
import {
  type Chemistry,
  type ProductCategory,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import { driesOn } from '#core/shelf/suits-step'
import { SelectField } from '../../_components/field.client'

/** What a product is for and how it dries; what does not dry on the piece is not asked how. */
export function KindOfProduct({
  category,
  chemistry,
}: {
  readonly category: ProductCategory
  /** Absent for a new product: it decides every wait, so nothing is chosen beforehand. */
  readonly chemistry: Chemistry | undefined
}) {
  const [chosen, setChosen] = useState<string>(category)
  const asked = productCategories.some((one) => one === chosen && driesOn(one))
  return (
    <div className="field-row field-row-wide">
      <SelectField
        name="category"
        label="What it is for"
        options={productCategories.map(optionOf)}
        defaultValue={category}
        onChange={setChosen}
      />
      {asked ? (
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
        <input type="hidden" name="chemistry" value={chemistry ?? 'other'} />
      )}
    </div>
  )
}

function optionOf(value: string) {
  return { value, text: value.replaceAll('-', ' ') }
}
