'use client'

import { useState } from 'react'
import { clockText } from '#core/captions/timestamp'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../../_components/action-form.client'

type Row = {
  readonly seconds: number
  readonly title: string
  readonly step: string
  /** How sure it is, in words; empty where the owner set it. */
  readonly sureness: string
}

/** Chapters whose starts are moved from caption to caption, and whose titles can be changed. */
export function ChapterList({
  chapters,
  cues,
  save,
}: {
  readonly chapters: readonly Row[]
  readonly cues: readonly { readonly seconds: number; readonly text: string }[]
  readonly save: FormAction
}) {
  const [rows, setRows] = useState(chapters)
  const move = (index: number, seconds: number) => {
    setRows(rows.map((row, i) => (i === index ? { ...row, seconds } : row)))
  }
  return (
    <ActionForm action={save} label="Chapters">
      <ol className="flex flex-col gap-3">
        {rows.map((row, index) => (
          <li key={chapters[index]?.seconds} className="card p-4">
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
              <span className="text-ink-soft">{row.sureness}</span>
              {index > 0 && (
                <button
                  type="button"
                  className="button button-quiet"
                  onClick={() => {
                    setRows(rows.filter((_, i) => i !== index))
                  }}
                >
                  Leave out
                </button>
              )}
            </div>
            {index > 0 && cues.length > 0 && (
              <Mover
                row={row}
                cues={cues.filter(
                  ({ seconds }) =>
                    seconds > (rows[index - 1]?.seconds ?? 0) &&
                    seconds < (rows[index + 1]?.seconds ?? Infinity),
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

/** Moves a start to the caption before, to the next one, or to any between its neighbours. */
function Mover({
  row,
  cues,
  onMove,
}: {
  readonly row: Row
  readonly cues: readonly { readonly seconds: number; readonly text: string }[]
  readonly onMove: (seconds: number) => void
}) {
  const before = cues.findLast(({ seconds }) => seconds < row.seconds)
  const next = cues.find(({ seconds }) => seconds > row.seconds)
  const name = clockText(row.seconds)
  const isCue = cues.some(({ seconds }) => seconds === row.seconds)
  const step = (
    to: { readonly seconds: number } | undefined,
    sign: string,
    words: string,
  ) => (
    <button
      type="button"
      className="button min-w-14 text-lead"
      aria-label={`Begin the chapter at ${name} one caption ${words}`}
      disabled={to === undefined}
      onClick={() => {
        if (to !== undefined) onMove(to.seconds)
      }}
    >
      {sign}
    </button>
  )
  return (
    <div className="mt-3 flex items-center gap-2">
      {step(before, '−', 'earlier')}
      <select
        aria-label={`What is said where the chapter at ${name} begins`}
        className="input min-w-0 flex-1"
        value={row.seconds}
        onChange={(event) => {
          onMove(Number(event.target.value))
        }}
      >
        {!isCue && <option value={row.seconds}>{name}</option>}
        {cues.map(({ seconds, text }) => (
          <option key={seconds} value={seconds}>
            {clockText(seconds)} {text.slice(0, 80)}
          </option>
        ))}
      </select>
      {step(next, '+', 'later')}
    </div>
  )
}
