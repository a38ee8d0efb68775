'use client'

import { useEffect, useRef, useState } from 'react'

type State =
  | { readonly kind: 'idle' }
  | { readonly kind: 'sending' }
  | { readonly kind: 'asking'; readonly file: File }
  | {
      readonly kind: 'kept'
      readonly kept: number
      readonly warnings: readonly string[]
    }
  | { readonly kind: 'refused'; readonly detail: string }

const unreachable =
  'The workshop could not be reached, so nothing was kept. Choose the file again once it can.'

/**
 * Takes the CSV file of a temperature and humidity logger. Where its dates can be read in two ways, asks which is meant
 * instead of guessing.
 */
export function LoggerFile({
  onKept,
}: {
  /** Shows the page anew once readings have been kept. */
  readonly onKept: () => Promise<void>
}) {
  const [state, setState] = useState<State>({ kind: 'idle' })
  const question = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (state.kind === 'asking') question.current?.focus()
  }, [state])

  async function send(file: File, order: 'day-first' | 'month-first' | null) {
    setState({ kind: 'sending' })
    const after = await sendFile(file, order)
    setState(after)
    if (after.kind === 'kept') await onKept()
  }

  return (
    <div className="flex flex-col gap-3">
      <label className="button relative self-start focus-within:outline-3 focus-within:outline-offset-2 focus-within:outline-(--press)">
        {state.kind === 'sending'
          ? 'Reading the file …'
          : 'Add a logger’s file'}
        <input
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          disabled={state.kind === 'sending'}
          className="absolute inset-0 size-full cursor-pointer opacity-0"
          onChange={(event) => {
            const file = event.target.files?.[0]
            // The same file chosen again must count as a choice.
            event.target.value = ''
            if (file !== undefined) void send(file, null)
          }}
        />
      </label>
      {state.kind === 'asking' && (
        <div
          ref={question}
          tabIndex={-1}
          role="group"
          aria-labelledby="date-order"
          className="card border-line-strong p-4"
        >
          <p id="date-order" className="mb-3 font-bold">
            The dates in {state.file.name} can be read in two ways. Which comes
            first?
          </p>
          <div className="flex flex-wrap gap-3">
            {(['day-first', 'month-first'] as const).map((order) => (
              <button
                key={order}
                type="button"
                className="button"
                onClick={() => void send(state.file, order)}
              >
                {orderWords[order]}
              </button>
            ))}
          </div>
        </div>
      )}
      <div role="status">
        {state.kind === 'kept' && (
          <>
            <p className="text-sound font-bold">
              {state.kept} {state.kept === 1 ? 'reading' : 'readings'} kept.
            </p>
            {state.warnings.map((warning) => (
              <p key={warning}>{warning}</p>
            ))}
          </>
        )}
      </div>
      {state.kind === 'refused' && (
        <p
          role="alert"
          className="border-wet bg-wet-soft text-wet rounded-card border-2 p-4 font-bold"
        >
          {state.detail}
        </p>
      )}
    </div>
  )
}

const orderWords = {
  'day-first': 'The day: 24/10',
  'month-first': 'The month: 10/24',
} as const

async function sendFile(file: File, order: string | null): Promise<State> {
  try {
    const answer = await fetch(
      order === null ? '/api/air' : `/api/air?order=${order}`,
      { method: 'POST', headers: { 'content-type': 'text/csv' }, body: file },
    )
    const said: unknown = await answer.json()
    if (answer.ok) {
      const { kept, warnings } = said as {
        readonly kept: number
        readonly warnings: readonly string[]
      }
      return { kind: 'kept', kept, warnings }
    }
    const { detail, errors } = said as {
      readonly detail: string
      readonly errors?: readonly { readonly path: string }[]
    }
    return order === null && errors?.[0]?.path === 'order'
      ? { kind: 'asking', file }
      : { kind: 'refused', detail }
  } catch {
    return { kind: 'refused', detail: unreachable }
  }
}
