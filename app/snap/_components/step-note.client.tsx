'use client'

import { useState } from 'react'
import { queueNote } from '../../_queue/sender'
import { SpokenNote } from './spoken-note.client'

/** A note for a step that has begun. It waits on the phone until the workshop has it. */
export function StepNote({
  job,
  step,
}: {
  readonly job: string
  readonly step: string
}) {
  const [note, setNote] = useState('')
  const [said, setSaid] = useState('')
  async function send() {
    await queueNote(job, step, note.trim())
    setNote('')
    setSaid('The note goes to its step.')
  }
  return (
    <section aria-label="Note for this step" className="flex flex-col gap-3">
      <SpokenNote
        note={note}
        onChange={(words) => {
          setSaid('')
          setNote(words)
        }}
      />
      <div>
        <button
          type="button"
          className="button min-h-14"
          disabled={note.trim() === ''}
          onClick={() => void send()}
        >
          Add the note
        </button>
      </div>
      <p role="status" className="font-bold empty:hidden">
        {said}
      </p>
    </section>
  )
}
