'use client'

import { useState } from 'react'
import {
  type DraftFinding,
  DraftFindings,
} from '../../../_components/draft-findings'
import { useDraftFindings } from '../../../_components/use-draft-findings.client'
import { coatProposal } from '../_coat-proposal'
import {
  ChoiceGroup,
  SelectField,
  TextArea,
  TextField,
  UnitChoice,
} from '../../../_components/field.client'

/** What a step form needs to know of the job and the shelf. */
export type StepChoices = {
  readonly kinds: readonly {
    readonly kind: string
    readonly name: string
    readonly counted: boolean
  }[]
  readonly pieces: readonly {
    readonly id: string
    readonly name: string
    readonly surfaces: readonly { readonly id: string; readonly name: string }[]
  }[]
  readonly products: readonly {
    readonly id: string
    readonly name: string
    /** The kinds of step it is usually used for. */
    readonly suits: readonly string[]
  }[]
  readonly methods: readonly string[]
  readonly units: readonly string[]
  /** The next coat number by kind and surface: `nextCoats[kind][surface]`. */
  readonly nextCoats: Readonly<Record<string, Readonly<Record<string, number>>>>
  /** Only of a step that is changed. */
  readonly kept?: KeptCoats
}

/** The kind of a step that is changed, and by surface the number that the coats before it give: it keeps its own where the kind stays. */
export type KeptCoats = {
  readonly kind: string
  readonly counted: Readonly<Record<string, number>>
}

/** What the fields hold at first. */
export type StepValues = {
  readonly kind: string
  readonly surfaces: readonly string[]
  readonly product: string
  readonly coat: string
  readonly method: string
  readonly thinningPercent: string
  readonly grit: string
  readonly amount: string
  readonly amountUnit: string
  readonly beforeGrams: string
  readonly afterGrams: string
  readonly startedAt: string
  readonly finishedAt: string
  /** The typed times to the millisecond, so that what is not touched does not move. */
  readonly startedWas: string
  readonly finishedWas: string
  /** The times that its photos give, where none was typed; they stand in the fields, and are not kept unless they are changed. */
  readonly startedStamp: string
  readonly finishedStamp: string
  readonly note: string
}

/** The fields of a step: the kind and the surfaces are tapped, the next coat number is proposed, the rest can wait. */
export function StepFields({
  choices,
  values,
  judgeDraft,
}: {
  readonly choices: StepChoices
  readonly values: StepValues
  /** Holds the form as it stands against the rules of a sound finish. */
  readonly judgeDraft: (form: FormData) => Promise<readonly DraftFinding[]>
}) {
  const [kind, setKind] = useState(values.kind)
  const [surfaces, setSurfaces] = useState<readonly string[]>(values.surfaces)
  const [product, setProduct] = useState(values.product)
  const counted =
    (kind !== 'hardware' || product !== '') &&
    (choices.kinds.find((one) => one.kind === kind)?.counted ?? false)
  const next = coatProposal(choices, kind, surfaces)
  const [findings, ask] = useDraftFindings()
  return (
    <div
      className="flex flex-col gap-5"
      onChange={(event) => {
        const form = event.currentTarget.closest('form')
        if (form !== null) ask(() => judgeDraft(new FormData(form)))
      }}
    >
      <ChoiceGroup name="kind" label="What was done">
        <div className="grid grid-cols-[repeat(auto-fill,minmax(min(100%,6.25rem),1fr))] gap-2">
          {choices.kinds.map((one) => (
            <label key={one.kind} className="choice-tile">
              <input
                type="radio"
                className="sr-only"
                name="kind"
                value={one.kind}
                defaultChecked={one.kind === values.kind}
                onChange={() => {
                  setKind(one.kind)
                }}
              />
              {one.name}
            </label>
          ))}
        </div>
      </ChoiceGroup>
      <ChoiceGroup name="surfaces" label="On which surfaces">
        <div className="flex flex-col gap-3">
          {choices.pieces.map((piece) => (
            <div key={piece.id} role="group" aria-label={piece.name}>
              {choices.pieces.length > 1 && (
                <p className="text-ink-soft mb-1">{piece.name}</p>
              )}
              <div className="flex flex-wrap gap-2">
                {piece.surfaces.map((surface) => (
                  <label key={surface.id} className="choice">
                    <input
                      type="checkbox"
                      name="surfaces"
                      value={surface.id}
                      defaultChecked={values.surfaces.includes(surface.id)}
                      onChange={(event) => {
                        setSurfaces(
                          event.target.checked
                            ? [...surfaces, surface.id]
                            : surfaces.filter((one) => one !== surface.id),
                        )
                      }}
                    />
                    {surface.name}
                  </label>
                ))}
              </div>
            </div>
          ))}
        </div>
      </ChoiceGroup>
      {/* Here, where the thumb has just chosen: below the fold it would be read once the brush is wet. */}
      <div aria-live="polite">
        <DraftFindings findings={findings} />
      </div>
      <SelectField
        name="product"
        label="Product"
        optional
        {...productOptions(choices.products, kind)}
        value={product}
        onChange={setProduct}
      />
      {counted && (
        <TextField
          name="coat"
          label="Coat number"
          hint={next.hint}
          inputMode="numeric"
          placeholder={next.number}
          defaultValue={values.coat}
          optional
        />
      )}
      <details
        open={
          values.grit !== '' ||
          values.thinningPercent !== '' ||
          values.method !== '' ||
          values.amount !== '' ||
          values.beforeGrams !== '' ||
          values.note !== ''
        }
      >
        <summary className="link flex min-h-12 cursor-pointer items-center">
          Method, grit, dilution, amount, note
        </summary>
        <div className="field-row field-row-wide mt-3">
          <SelectField
            name="method"
            label="Method"
            optional
            options={[
              { value: '', text: 'Not said' },
              ...choices.methods.map((one) => ({ value: one, text: one })),
            ]}
            defaultValue={values.method}
          />
          <TextField
            name="grit"
            label="Grit"
            hint="The number on its back: 180 for P180."
            inputMode="numeric"
            defaultValue={values.grit}
            optional
          />
          <TextField
            name="thinningPercent"
            label="Thinned by"
            unit="%"
            hint="Parts added to 100 parts of product."
            inputMode="decimal"
            defaultValue={values.thinningPercent}
            optional
          />
          <TextField
            name="amount"
            label="Amount used"
            inputMode="decimal"
            defaultValue={values.amount}
            unitChoice={
              <UnitChoice
                name="amountUnit"
                label="Unit of the amount"
                units={choices.units}
                defaultValue={values.amountUnit}
              />
            }
            optional
          />
          <div className="field-row">
            <TextField
              name="weighed.beforeGrams"
              label="Can before"
              hint="Or weigh the can."
              unit="g"
              inputMode="decimal"
              defaultValue={values.beforeGrams}
              optional
            />
            <TextField
              name="weighed.afterGrams"
              label="Can after"
              unit="g"
              inputMode="decimal"
              defaultValue={values.afterGrams}
              optional
            />
          </div>
        </div>
        <div className="mt-4">
          <TextArea
            name="note"
            label="Note"
            defaultValue={values.note}
            optional
          />
        </div>
      </details>
      <details open={values.startedAt !== '' || values.finishedAt !== ''}>
        <summary className="link flex min-h-12 cursor-pointer items-center">
          Type the times instead of taking them from photos
        </summary>
        {(values.startedStamp !== '' || values.finishedStamp !== '') && (
          <p className="text-ink-soft mt-1">
            What its photos say stands here. Change it only where they are
            wrong.
          </p>
        )}
        <div className="field-row field-row-wide mt-3">
          <input
            type="hidden"
            name="startedAt.stamp"
            value={values.startedStamp}
          />
          <input
            type="hidden"
            name="finishedAt.stamp"
            value={values.finishedStamp}
          />
          <input type="hidden" name="startedAt.was" value={values.startedWas} />
          <input
            type="hidden"
            name="finishedAt.was"
            value={values.finishedWas}
          />
          <TextField
            name="startedAt"
            label="Started"
            type="datetime-local"
            step={60}
            defaultValue={values.startedAt || values.startedStamp}
            optional
          />
          <TextField
            name="finishedAt"
            label="Finished"
            type="datetime-local"
            step={60}
            defaultValue={values.finishedAt || values.finishedStamp}
            optional
          />
        </div>
      </details>
    </div>
  )
}

/** What suits the kind of step comes first; nothing is out of reach. */
function productOptions(products: StepChoices['products'], kind: string) {
  const optionOf = ({ id, name }: StepChoices['products'][number]) => ({
    value: id,
    text: name,
  })
  const none = { value: '', text: 'None' }
  const suited = products.filter(({ suits }) => suits.includes(kind))
  if (suited.length === 0) {
    return { options: [none, ...products.map(optionOf)] }
  }
  const others = products.filter(({ suits }) => !suits.includes(kind))
  return {
    options: [none],
    groups: [
      { label: 'Usual for this', options: suited.map(optionOf) },
      ...(others.length === 0
        ? []
        : [{ label: 'Others', options: others.map(optionOf) }]),
    ],
  }
}
