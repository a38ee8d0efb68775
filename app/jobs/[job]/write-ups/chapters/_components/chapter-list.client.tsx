'use client'

import { useState } from 'react'
import { shortestChapter } from '#core/captions/chapter-length'
import { clockText } from '#core/captions/timestamp'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { SliderHandle } from '../../../_components/slider-handle'

type Row = {
  /** Stays with it wherever it is moved to. */
  readonly key: string
  readonly seconds: number
  readonly title: string
  readonly step: string
  /** How sure it is, in words; empty where the owner set it. */
  readonly sureness: string
}

type Cue = { readonly seconds: number; readonly text: string }

/** Chapters whose starts are dragged over the captions, and whose titles can be changed. */
export function ChapterList({
  chapters,
  cues,
  save,
}: {
  readonly chapters: readonly Row[]
  readonly cues: readonly Cue[]
  readonly save: FormAction
}) {
  const [rows, setRows] = useState(
    chapters.map((row) => ({ ...row, found: row.seconds })),
  )
  const move = (index: number, seconds: number) => {
    setRows(rows.map((row, i) => (i === index ? { ...row, seconds } : row)))
  }
  return (
    <ActionForm action={save} label="Chapters">
      <ol className="flex flex-col gap-3">
        {rows.map((row, index) => (
          <li key={row.key} className="card p-4">
            <input type="hidden" name="seconds" value={row.seconds} />
            <input type="hidden" name="step" value={row.step} />
            <div className="flex flex-wrap items-center gap-x-4 gap-y-2">
              <span className="text-lead min-w-16 font-bold tabular-nums">
                {clockText(row.seconds)}
              </span>
              <input
                name="title"
                aria-label={`Title of the chapter at ${clockText(row.seconds)}`}
                defaultValue={row.title}
                maxLength={100}
                className="input min-w-0 flex-1 basis-48"
              />
              <span className="text-ink-soft">
                {row.seconds === row.found
                  ? row.sureness
                  : `Moved from ${clockText(row.found)}`}
              </span>
              {index > 0 && (
                <button
                  type="button"
                  className="button button-quiet ml-auto"
                  onClick={() => {
                    setRows(rows.filter((_, i) => i !== index))
                  }}
                >
                  Leave out
                </button>
              )}
            </div>
            {index > 0 && cues.length > 0 && (
              <StartSlider
                row={row}
                cues={cues.filter(
                  ({ seconds }) =>
                    seconds >=
                      (rows[index - 1]?.seconds ?? 0) + shortestChapter &&
                    seconds <=
                      (rows[index + 1]?.seconds ?? Infinity) - shortestChapter,
                )}
                onMove={(seconds) => {
                  move(index, seconds)
                }}
              />
            )}
          </li>
        ))}
      </ol>
      <div className="mt-4">
        <SubmitButton>Save the chapters</SubmitButton>
      </div>
    </ActionForm>
  )
}

/**
 * Drags a start over the captions between its neighbours, by pointer, finger or arrow keys, with a button each way for one
 * caption; says what is spoken there. Where no other caption lies between the neighbours there is nothing to drag.
 */
function StartSlider({
  row,
  cues,
  onMove,
}: {
  readonly row: Row
  readonly cues: readonly Cue[]
  readonly onMove: (seconds: number) => void
}) {
  const here = cues.findLastIndex(({ seconds }) => seconds <= row.seconds)
  const at = cues[here]
  const isOnCue = at?.seconds === row.seconds
  const name = row.title === '' ? clockText(row.seconds) : `“${row.title}”`
  const share = Math.max(0, here) / Math.max(1, cues.length - 1)
  const button = (to: Cue | undefined, sign: string, words: string) => (
    <button
      type="button"
      className="button min-w-14 text-lead"
      aria-label={`Begin ${name} one caption ${words}`}
      disabled={to === undefined}
      onClick={() => {
        if (to !== undefined) onMove(to.seconds)
      }}
    >
      {sign}
    </button>
  )
  const earlier = cues[isOnCue ? here - 1 : here]
  const later = cues[here + 1]
  const said = at !== undefined && (
    <p className="text-ink-soft">
      {isOnCue ? '' : `${clockText(at.seconds)} `}“{at.text}”
    </p>
  )
  if (earlier === undefined && later === undefined) {
    return (
      <div className="mt-3 flex flex-col gap-1">
        {said}
        <p className="text-ink-soft">
          It stays here: no other caption is {shortestChapter} seconds from both
          neighbours.
        </p>
      </div>
    )
  }
  return (
    <div className="mt-3 flex flex-col gap-1">
      <div className="flex items-center gap-2">
        {button(earlier, '−', 'earlier')}
        {cues.length < 2 ? (
          <p className="text-ink-soft min-w-0 flex-1 text-center">
            Only one caption lies here
          </p>
        ) : (
          <div className="relative mx-6 h-12 min-w-0 flex-1">
            <span
              aria-hidden="true"
              className="bg-line absolute inset-x-0 top-1/2 h-1 -translate-y-1/2 rounded-full"
            />
            <input
              type="range"
              min={0}
              max={cues.length - 1}
              step={1}
              value={Math.max(0, here)}
              aria-label={`Start of the chapter ${name}`}
              aria-valuetext={`${clockText(row.seconds)}${at === undefined ? '' : `, ${at.text}`}`}
              onChange={(event) => {
                const to = cues[Number(event.currentTarget.value)]
                if (to !== undefined) onMove(to.seconds)
              }}
              className="peer absolute -inset-x-2 inset-y-0 h-full cursor-ew-resize touch-pan-y opacity-0"
            />
            <span
              aria-hidden="true"
              className="bg-paper border-ink pointer-events-none absolute top-1/2 grid size-12 -translate-1/2 place-items-center rounded-full border-2 peer-focus-visible:outline-3 peer-focus-visible:outline-offset-2 peer-focus-visible:outline-ink"
              style={{ left: `${share * 100}%` }}
            >
              <SliderHandle />
            </span>
          </div>
        )}
        {button(later, '+', 'later')}
      </div>
      {said}
    </div>
  )
}
