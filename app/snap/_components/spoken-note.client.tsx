'use client'

import { useRef, useState, useSyncExternalStore } from 'react'
import { longestNote } from '#core/journal/vocabulary'

/** The parts of a browser's recogniser that are used here; no library of types has it. */
type Recogniser = {
  lang: string
  onresult: (event: {
    readonly results: ArrayLike<ArrayLike<{ readonly transcript: string }>>
  }) => void
  onend: () => void
  start: () => void
  stop: () => void
}

/** A note that is typed, or spoken where the browser can write it down; elsewhere the keyboard may. */
export function SpokenNote({
  note,
  onChange,
}: {
  readonly note: string
  readonly onChange: (note: string) => void
}) {
  const canSpeak = useSyncExternalStore(
    noChange,
    () => recogniserOf(globalThis) !== undefined,
    // Most can.
    () => true,
  )
  const [listening, setListening] = useState(false)
  const recogniser = useRef<Recogniser>(undefined)
  function speak() {
    if (listening) {
      recogniser.current?.stop()
      return
    }
    const Made = recogniserOf(globalThis)
    if (Made === undefined) return
    const made = new Made()
    made.lang = navigator.language
    made.onresult = ({ results }) => {
      const heard = Array.from(results, (one) => one[0]?.transcript ?? '')
      onChange([note, ...heard].join(' ').trim())
    }
    made.onend = () => {
      setListening(false)
    }
    recogniser.current = made
    made.start()
    setListening(true)
  }
  return (
    <div className="flex flex-col gap-1.5">
      <label htmlFor="snap-note" className="font-semibold">
        Note
      </label>
      <textarea
        id="snap-note"
        className="input"
        rows={2}
        maxLength={longestNote}
        value={note}
        onChange={(event) => {
          onChange(event.target.value)
        }}
      />
      {/* Either has the room of both: only the browser knows which it is, and what stands below must not move then. */}
      <div className="grid *:[grid-area:1/1]">
        <div
          className={`flex flex-wrap items-center gap-3 ${canSpeak ? '' : 'invisible'}`}
        >
          <button
            type="button"
            className="button"
            aria-pressed={listening}
            onClick={speak}
          >
            {listening ? 'Stop listening' : 'Speak the note'}
          </button>
          <span className="text-ink-soft text-small">
            Some browsers send what you say to their maker to have it written
            down.
          </span>
        </div>
        <p
          className={`text-ink-soft text-small ${canSpeak ? 'invisible' : ''}`}
        >
          To speak the note, use the microphone of your phone’s keyboard.
        </p>
      </div>
    </div>
  )
}

function noChange(): () => void {
  return () => undefined
}

function recogniserOf(scope: object): (new () => Recogniser) | undefined {
  const found: unknown =
    Reflect.get(scope, 'SpeechRecognition') ??
    Reflect.get(scope, 'webkitSpeechRecognition')
  return typeof found === 'function'
    ? (found as new () => Recogniser)
    : undefined
}
