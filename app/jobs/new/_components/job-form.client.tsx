'use client'

import { useState } from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../_components/action-form.client'
import { ChoiceGroup, TextField } from '../../../_components/field.client'

/** A job with its pieces and their surfaces, made in one go: most of it is tapped, not typed. */
export function JobForm({
  action,
  surfaceNames,
}: {
  readonly action: FormAction
  readonly surfaceNames: readonly string[]
}) {
  const [pieces, setPieces] = useState<readonly number[]>([0])
  return (
    <ActionForm action={action} className="flex max-w-2xl flex-col gap-5">
      <TextField
        name="title"
        label="Title"
        placeholder="Oak sideboard and bench"
        autoComplete="off"
        maxLength={120}
        required
      />
      <input type="hidden" name="pieceCount" value={pieces.length} />
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
                    defaultChecked={name === 'body'}
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
                hint="To tell two alike apart, such as “left bedside table”."
                autoComplete="off"
                maxLength={80}
                optional
              />
              <TextField
                name={`pieces.${index}.ownSurfaces`}
                label="Other surfaces"
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
