'use client'

import { type ReactNode, useState } from 'react'
import { SurfaceChoices } from '../../../../_components/surface-choices.client'
import {
  type OwnStep,
  type PlaceOption,
  type PlaceParts,
  onlyOnce,
  ownOption,
  withProduct,
} from '../_place-options'
import type { PlacingLine } from '../_placing-lines'

/** The choice of a step that is put together here; no place has this value. */
const own = 'own'

/** A closed list on a phone shows no more characters; what is longer is said beside the picture. */
const fitsClosed = 28

/** What was said of a line: the value that was chosen, and the step that was put together. */
type Said = { readonly chosen: string; readonly step?: OwnStep }

/**
 * The photos of a day, a line for each burst: what is proposed follows the journal until its owner says something else of
 * that line.
 */
export function PlacingLines({
  lines,
  parts,
}: {
  readonly lines: readonly PlacingLine[]
  readonly parts: PlaceParts
}) {
  const [said, setSaid] = useState<ReadonlyMap<string, Said>>(new Map())
  // By the new step, as its place: what it was done with holds for all its photos.
  const [used, setUsed] = useState<ReadonlyMap<string, string>>(new Map())
  // What was put together for one line can be chosen for the others.
  const madeHere = [...said.values()].flatMap(({ chosen, step }) =>
    chosen === own && step !== undefined ? (ownOption(step, parts) ?? []) : [],
  )
  const asked = new Set<string>()
  return (
    <ol className="divide-line divide-y">
      {lines.map((line) => {
        const others = onlyOnce([...madeHere, ...parts.known], line.options)
        const choice = choiceOf(line, others, said.get(line.id), parts)
        const value = choice.shown?.value ?? ''
        const products = choice.shown?.products
        const isFirst = products !== undefined && !asked.has(value)
        if (isFirst) asked.add(value)
        const product = products?.find((one) => one === used.get(value))
        return (
          <li key={line.id} className="@container py-4 first:pt-0">
            <Line
              line={line}
              parts={parts}
              others={others}
              choice={choice}
              product={product}
              onSay={(what) => {
                setSaid(new Map(said).set(line.id, what))
              }}
            >
              {isFirst && (
                <UsedProduct
                  step={choice.shown?.words ?? ''}
                  products={products.map((one) => ({
                    id: one,
                    name: parts.productNames[one] ?? '',
                  }))}
                  used={product}
                  onUse={(one) => {
                    const next = new Map(used)
                    if (one === undefined) next.delete(value)
                    else next.set(value, one)
                    setUsed(next)
                  }}
                />
              )}
            </Line>
          </li>
        )
      })}
    </ol>
  )
}

/** What a line says as it stands. */
type Choice = {
  readonly chosen: string
  readonly step: OwnStep
  /** The place; absent while it is left for later or not complete. */
  readonly shown: PlaceOption | undefined
}

function choiceOf(
  line: PlacingLine,
  others: readonly PlaceOption[],
  said: Said | undefined,
  parts: PlaceParts,
): Choice {
  const all = [...line.options, ...others]
  // A place that is no longer offered, such as a step that was removed, is no choice either.
  const isOffered =
    said !== undefined &&
    (said.chosen === '' ||
      said.chosen === own ||
      all.some((one) => one.value === said.chosen))
  const chosen = isOffered ? said.chosen : line.proposed
  const step = said?.step ?? line.begin
  const shown =
    chosen === own
      ? ownOption(step, parts)
      : all.find((one) => one.value === chosen)
  return { chosen, step, shown }
}

function Line({
  line,
  parts,
  others,
  choice: { chosen, step, shown },
  product,
  onSay,
  children,
}: {
  readonly line: PlacingLine
  readonly parts: PlaceParts
  readonly others: readonly PlaceOption[]
  readonly choice: Choice
  readonly product: string | undefined
  readonly onSay: (said: Said) => void
  readonly children: ReactNode
}) {
  const { id, photoIds, time, options } = line
  const count = photoIds.length
  const what = `${time}, ${count === 1 ? 'one photo' : `${count} photos`}`
  const value = shown?.value ?? ''
  return (
    <div className="grid grid-cols-[min(7rem,40%)_minmax(0,1fr)] items-start gap-3 @min-[30rem]:grid-rows-[auto_1fr] @min-[30rem]:grid-cols-[11rem_minmax(0,1fr)]">
      <Fronts line={line} job={parts.job} />
      <div className="min-w-0">
        <p>
          <span className="font-bold">{time}</span>
          {count > 1 && <span> · {count} photos</span>}
          {line.sure !== '' && (
            <span className="text-ink-soft"> · {line.sure}</span>
          )}
        </p>
        {chosen === '' && line.guess !== '' && (
          <p className="text-ink-soft text-small">{line.guess}?</p>
        )}
        {shown !== undefined && shown.words.length > fitsClosed && (
          <p className="text-small @min-[30rem]:hidden">{shown.words}</p>
        )}
      </div>
      <div className="col-span-2 min-w-0 @min-[30rem]:col-span-1 @min-[30rem]:col-start-2">
        <input type="hidden" name="burst" value={id} />
        <input type="hidden" name={`photos ${id}`} value={photoIds.join(' ')} />
        <input
          type="hidden"
          name={`place ${id}`}
          value={product === undefined ? value : withProduct(value, product)}
        />
        <select
          aria-label={`What it shows: ${what}`}
          value={chosen}
          onChange={(event) => {
            onSay({ step, chosen: event.target.value })
          }}
          className="input"
        >
          <optgroup label="Proposed">
            {options.map(({ value, words }) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </optgroup>
          <option value="">Leave for later</option>
          <option value={own}>Another step or surface …</option>
          <optgroup label="Something else">
            {others.map(({ value, words }) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </optgroup>
        </select>
        {chosen === own && (
          <OwnStepFields
            what={what}
            step={step}
            parts={parts}
            onChange={(changed) => {
              onSay({ chosen: own, step: changed })
            }}
          />
        )}
        {children}
        <Behind line={line} job={parts.job} />
      </div>
    </div>
  )
}

/** What a new step was done with, where that can be said in one tap; nothing is taken for granted. */
function UsedProduct({
  step,
  products,
  used,
  onUse,
}: {
  readonly step: string
  readonly products: readonly { readonly id: string; readonly name: string }[]
  readonly used: string | undefined
  readonly onUse: (product: string | undefined) => void
}) {
  return (
    <fieldset className="mt-3">
      <legend className="text-ink-soft text-small mb-1.5">
        What with? (optional)<span className="sr-only"> {step}</span>
      </legend>
      <div className="flex flex-wrap gap-2">
        {products.map(({ id, name }) => (
          <label key={id} className="choice">
            <input
              type="checkbox"
              checked={used === id}
              onChange={(event) => {
                onUse(event.target.checked ? id : undefined)
              }}
            />
            {name}
          </label>
        ))}
      </div>
    </fieldset>
  )
}

/** A step of any kind on any surfaces. */
function OwnStepFields({
  what,
  step,
  parts,
  onChange,
}: {
  readonly what: string
  readonly step: OwnStep
  readonly parts: PlaceParts
  readonly onChange: (step: OwnStep) => void
}) {
  const { kind, surfaces, coat } = step
  const isCounted =
    parts.kinds.find((one) => one.kind === kind)?.counted ?? false
  return (
    <fieldset className="border-line mt-3 flex flex-col gap-3 border-t pt-3">
      <legend className="sr-only">Another step for {what}</legend>
      <div className="flex flex-wrap gap-3">
        <label className="flex grow flex-col gap-1.5 font-semibold">
          What was done
          <select
            className="input"
            value={kind}
            onChange={(event) => {
              onChange({
                ...step,
                kind:
                  parts.kinds.find((one) => one.kind === event.target.value)
                    ?.kind ?? '',
                // Coats of another kind are counted anew.
                coat: '',
              })
            }}
          >
            <option value="">Choose …</option>
            {parts.kinds.map((one) => (
              <option key={one.kind} value={one.kind}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
        {isCounted && (
          <label className="flex w-24 flex-col gap-1.5 font-semibold">
            Coat
            <input
              className="input"
              inputMode="numeric"
              maxLength={2}
              placeholder="next"
              value={coat}
              onChange={(event) => {
                onChange({ ...step, coat: event.target.value })
              }}
            />
          </label>
        )}
      </div>
      <SurfaceChoices
        pieces={parts.pieces}
        namesPieces={parts.pieces.length > 1}
        chosen={surfaces}
        onChange={(chosen) => {
          onChange({ ...step, surfaces: chosen })
        }}
      />
      {(kind === '' || surfaces.length === 0) && (
        <p className="text-late text-small font-semibold">
          {kind === ''
            ? 'Choose what was done, or it is left for later.'
            : 'Choose at least one surface, or it is left for later.'}
        </p>
      )}
    </fieldset>
  )
}

/** The sharpest of what looks the same. */
function Fronts({
  line: { folds, time },
  job,
}: {
  readonly line: PlacingLine
  readonly job: string
}) {
  return (
    <div className="flex flex-col gap-1 @min-[30rem]:row-span-2">
      {folds.map(({ front }) => (
        <a key={front} href={`/jobs/${job}/photos/${front}`} className="block">
          <img
            src={`/api/photos/${front}/thumb`}
            alt={`Taken at ${time}`}
            loading="lazy"
            width={320}
            height={240}
            className="bg-well rounded-control aspect-[4/3] w-full object-cover"
          />
        </a>
      ))}
    </div>
  )
}

/** What looks like them. */
function Behind({
  line: { folds, time },
  job,
}: {
  readonly line: PlacingLine
  readonly job: string
}) {
  const behind = folds.flatMap((fold) => fold.behind)
  if (behind.length === 0) return null
  return (
    <details className="mt-2">
      <summary className="link inline-flex min-h-11 cursor-pointer items-center">
        {behind.length === 1
          ? 'One more like it'
          : `${behind.length} more like it`}
      </summary>
      <ul className="mt-2 grid grid-cols-3 gap-2 sm:grid-cols-5">
        {behind.map((photo) => (
          <li key={photo}>
            <a href={`/jobs/${job}/photos/${photo}`}>
              <img
                src={`/api/photos/${photo}/thumb`}
                alt={`Taken at ${time}, like the one in front`}
                loading="lazy"
                width={320}
                height={240}
                className="bg-well rounded-control aspect-[4/3] w-full object-cover"
              />
            </a>
          </li>
        ))}
      </ul>
    </details>
  )
}
