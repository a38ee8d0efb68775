'use client'

import { useLayoutEffect, useRef, useState } from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../_components/action-form.client'
import { ChoiceGroup, TextField } from '../../../_components/field.client'
import {
  type KeptForm,
  forgetForm,
  keepForm,
  keepTyped,
  keptForm,
} from '../kept-form'

type Props = {
  readonly action: FormAction
  readonly surfaceNames: readonly string[]
}

/**
 * A job with its pieces and their surfaces, made in one go: most of it is tapped, not typed. Who leaves it and comes back
 * finds what was typed.
 */
export function JobForm(props: Props) {
  // What the browser has kept is not known where the page is made. The fields that came with it make room for those that
  // know, with what was typed into them until this moment; a moment later more would be typed. Where nothing was, they stay.
  const [keeps, setKeeps] = useState(false)
  return (
    <JobFields
      key={String(keeps)}
      keeps={keeps}
      onAlive={(form) => {
        keepTyped(form)
        if (keptForm() !== undefined) setKeeps(true)
      }}
      {...props}
    />
  )
}

function JobFields({
  action,
  surfaceNames,
  keeps,
  onAlive,
}: Props & {
  readonly keeps: boolean
  readonly onAlive: (form: HTMLFormElement) => void
}) {
  const [kept] = useState<KeptForm | undefined>(() =>
    keeps ? keptForm() : undefined,
  )
  const [pieces, setPieces] = useState<readonly number[]>(() =>
    Array.from({ length: kept?.count ?? 1 }, (_, index) => index),
  )
  const text = (name: string) => kept?.values(name)[0] ?? ''
  const inForm = useRef<HTMLInputElement>(null)
  const isAlive = useRef(false)
  useLayoutEffect(() => {
    const form = inForm.current?.form
    if (keeps || isAlive.current || !form) return
    isAlive.current = true
    onAlive(form)
  })
  return (
    <ActionForm
      action={async (previous, form) => {
        forgetForm()
        const state = await action(previous, form)
        // Still here: something was refused.
        keepForm(form)
        return state
      }}
      className="flex max-w-2xl flex-col gap-5"
      onChange={keepForm}
    >
      <TextField
        name="title"
        label="Title"
        defaultValue={text('title')}
        placeholder="Oak sideboard and bench"
        autoComplete="off"
        maxLength={120}
        required
      />
      <input
        ref={inForm}
        type="hidden"
        name="pieceCount"
        value={pieces.length}
      />
      {pieces.map((piece, index) => (
        <section
          key={piece}
          aria-labelledby={`piece-${piece}`}
          className="card flex flex-col gap-4 p-4"
        >
          <div className="flex items-center justify-between gap-2">
            <h2 id={`piece-${piece}`} className="text-lead font-bold">
              Piece {index + 1}
            </h2>
            {pieces.length > 1 && index === pieces.length - 1 && (
              <button
                type="button"
                className="button button-quiet"
                onClick={() => {
                  setPieces(pieces.filter((one) => one !== piece))
                }}
              >
                Leave out
              </button>
            )}
          </div>
          <TextField
            name={`pieces.${index}.kind`}
            label="What is it?"
            defaultValue={text(`pieces.${index}.kind`)}
            placeholder="sideboard"
            autoComplete="off"
            list="kinds-of-furniture"
            maxLength={60}
            required
          />
          <ChoiceGroup
            name={`pieces.${index}.surfaces`}
            label="Surfaces with a finish of their own"
          >
            <div className="flex flex-wrap gap-2">
              {surfaceNames.map((name) => (
                <label key={name} className="choice">
                  <input
                    type="checkbox"
                    name={`pieces.${index}.surfaces`}
                    value={name}
                    defaultChecked={
                      kept === undefined || index >= kept.count
                        ? name === 'body'
                        : kept.values(`pieces.${index}.surfaces`).includes(name)
                    }
                  />
                  {name}
                </label>
              ))}
            </div>
          </ChoiceGroup>
          <details>
            <summary className="link flex min-h-12 cursor-pointer items-center">
              A name of its own, or other surfaces
            </summary>
            <div className="mt-2 flex flex-col gap-4">
              <TextField
                name={`pieces.${index}.name`}
                label="Name"
                defaultValue={text(`pieces.${index}.name`)}
                hint="To tell two alike apart, such as “left bedside table”."
                autoComplete="off"
                maxLength={80}
                optional
              />
              <TextField
                name={`pieces.${index}.ownSurfaces`}
                label="Other surfaces"
                defaultValue={text(`pieces.${index}.ownSurfaces`)}
                hint="Separate them by commas."
                placeholder="mirror frame, back"
                autoComplete="off"
                optional
              />
            </div>
          </details>
        </section>
      ))}
      <datalist id="kinds-of-furniture">
        {kindsOfFurniture.map((kind) => (
          <option key={kind} value={kind} />
        ))}
      </datalist>
      <div className="flex flex-wrap gap-3">
        <button
          type="button"
          className="button"
          onClick={() => {
            setPieces([...pieces, Math.max(...pieces) + 1])
          }}
        >
          Add another piece
        </button>
        <SubmitButton>Start the job</SubmitButton>
      </div>
    </ActionForm>
  )
}

const kindsOfFurniture = [
  'sideboard',
  'chest of drawers',
  'dresser',
  'bedside table',
  'coffee table',
  'dining table',
  'chair',
  'bench',
  'bookcase',
  'cabinet',
  'desk',
  'wardrobe',
  'blanket box',
  'stool',
  'mirror',
]
