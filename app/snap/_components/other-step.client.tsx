'use client'

import { useEffect, useEffectEvent, useState } from 'react'
import { SurfaceChoices } from '../../_components/surface-choices.client'
import type { SnapChoice } from '../snap-choice'

/** What another step can be made of, in plain values. */
export type SnapForm = {
  readonly kinds: readonly { readonly kind: string; readonly name: string }[]
  readonly jobs: readonly {
    readonly id: string
    readonly title: string
    readonly pieces: readonly {
      readonly id: string
      readonly name: string
      readonly surfaces: readonly {
        readonly id: string
        readonly name: string
      }[]
    }[]
  }[]
  readonly products: readonly { readonly id: string; readonly name: string }[]
}

/** A new step on any surfaces of a job's pieces, several at once: what gets the same primer in one go is one step. */
export function OtherStep({
  form,
  job,
  onChoose,
  onDone,
}: {
  readonly form: SnapForm
  readonly job: string | undefined
  /** Called as soon as enough is said, and with every change: a photo taken meanwhile is of what stands here. */
  readonly onChoose: (choice: SnapChoice) => void
  /** Called once its owner says that it is all. */
  readonly onDone: () => void
}) {
  const [jobId, setJobId] = useState(job ?? form.jobs[0]?.id ?? '')
  const [kind, setKind] = useState('')
  const [surfaces, setSurfaces] = useState<readonly string[]>([])
  const [product, setProduct] = useState('')
  const chosen = form.jobs.find((one) => one.id === jobId)
  const ready = kind !== '' && surfaces.length > 0 && chosen !== undefined
  const choose = useEffectEvent(() => {
    if (!ready) return
    const name = form.kinds.find((one) => one.kind === kind)?.name ?? kind
    const on = chosen.pieces.flatMap((piece) => {
      const names = piece.surfaces
        .filter((one) => surfaces.includes(one.id))
        .map((one) => one.name)
      return names.length === 0 ? [] : [`${piece.name} ${names.join(', ')}`]
    })
    const used = form.products.find((one) => one.id === product)
    onChoose({
      id: `new ${kind} ${product} ${surfaces.join(' ')}`,
      job: chosen.id,
      title: `${name}: ${on.join(', ')}`,
      detail: [used?.name, chosen.title]
        .filter((one) => one !== undefined)
        .join(' · '),
      why: '',
      newStep: {
        kind,
        surfaces,
        ...(product === '' ? {} : { product }),
      },
      fields: [],
      follows: [],
      doing: {},
    })
  })
  useEffect(() => {
    choose()
  }, [jobId, kind, surfaces, product])
  return (
    <section
      aria-label="Another step"
      className="card flex flex-col gap-5 p-4 sm:p-6"
    >
      {form.jobs.length > 1 && (
        <label className="flex flex-col gap-1.5 font-semibold">
          Job
          <select
            className="input"
            value={jobId}
            onChange={(event) => {
              setJobId(event.target.value)
              setSurfaces([])
            }}
          >
            {form.jobs.map((one) => (
              <option key={one.id} value={one.id}>
                {one.title}
              </option>
            ))}
          </select>
        </label>
      )}
      <fieldset>
        <legend className="mb-1.5 font-semibold">What is done</legend>
        <div className="flex flex-wrap gap-2">
          {form.kinds.map((one) => (
            <label key={one.kind} className="choice">
              <input
                type="radio"
                name="kind"
                checked={kind === one.kind}
                onChange={() => {
                  setKind(one.kind)
                }}
              />
              {one.name}
            </label>
          ))}
        </div>
      </fieldset>
      <fieldset>
        <legend className="mb-1.5 font-semibold">On which surfaces</legend>
        <div className="flex flex-col gap-3">
          <SurfaceChoices
            pieces={chosen?.pieces ?? []}
            namesPieces
            chosen={surfaces}
            onChange={setSurfaces}
          />
        </div>
      </fieldset>
      <label className="flex flex-col gap-1.5 font-semibold">
        Product
        <select
          className="input"
          value={product}
          onChange={(event) => {
            setProduct(event.target.value)
          }}
        >
          <option value="">None</option>
          {form.products.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        className="button button-main min-h-14"
        disabled={!ready}
        onClick={onDone}
      >
        {ready ? 'Take this step in hand' : 'Choose what and on which surfaces'}
      </button>
    </section>
  )
}
