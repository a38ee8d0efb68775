'use client'

import { useState } from 'react'
import { addNoteAction } from '../actions'
import { SpokenNote } from './spoken-note.client'

/** A note for a step that has begun. It goes straight to the workshop; without a network it stays in its field. */
export function StepNote({
  job,
  step,
}: {
  readonly job: string
  readonly step: string
}) {
  const [note, setNote] = useState('')
  const [sending, setSending] = useState(false)
  const [said, setSaid] = useState('')
  async function send() {
    setSending(true)
    try {
      const { outcome, message } = await addNoteAction(job, step, note)
      if (outcome === 'saved') setNote('')
      setSaid(message ?? '')
    } catch {
      setSaid(
        'The workshop cannot be reached. The note stays here; add it again once it can.',
      )
    } finally {
      setSending(false)
    }
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
          disabled={sending || note.trim() === ''}
          onClick={() => void send()}
        >
          {sending ? 'Adding …' : 'Add the note'}
        </button>
      </div>
      <p role="status" className="font-bold empty:hidden">
        {said}
      </p>
    </section>
  )
}
