'use client'

import { useState } from 'react'

/** Sends a caption file as it is; says why when it is not taken. */
export function CaptionUpload({
  job,
  label,
  isFirst,
  onKept,
}: {
  readonly job: string
  readonly label: string
  /** Whether it is the first thing to do here. */
  readonly isFirst: boolean
  /** Shows the page anew once it has been kept. */
  readonly onKept: () => Promise<void>
}) {
  const [state, setState] = useState({ busy: false, problem: '' })
  async function send(file: File | undefined) {
    if (file === undefined) return
    setState({ busy: true, problem: '' })
    const problem = await post(job, file)
    if (problem === '') await onKept()
    setState({ busy: false, problem })
  }
  return (
    <div className="flex flex-col gap-2">
      <label
        className={`button relative self-start ${isFirst ? 'button-main' : ''}`}
      >
        {state.busy ? 'Reading …' : label}
        <input
          type="file"
          accept=".vtt,.srt,text/vtt,application/x-subrip"
          disabled={state.busy}
          className="absolute inset-0 cursor-pointer opacity-0"
          onChange={(event) => {
            const { currentTarget } = event
            void send(currentTarget.files?.[0]).then(() => {
              currentTarget.value = ''
            })
          }}
        />
      </label>
      <p role="alert" className="text-wet font-bold">
        {state.problem}
      </p>
    </div>
  )
}

async function post(job: string, file: File): Promise<string> {
  try {
    const answer = await fetch(`/api/jobs/${job}/captions`, {
      method: 'POST',
      body: file,
    })
    if (answer.ok) return ''
    const told: unknown = await answer.json()
    return typeof told === 'object' && told !== null && 'detail' in told
      ? String(told.detail)
      : 'The captions were not taken.'
  } catch {
    return 'The captions did not get through. Look whether the program still runs, and send them again.'
  }
}
