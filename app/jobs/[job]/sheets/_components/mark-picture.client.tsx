'use client'

import { useState } from 'react'

/** Sends a picture as the workshop's own mark, and says whether it was kept. */
export function MarkPicture({
  refresh,
}: {
  /** Shows the page with the new mark. */
  readonly refresh: () => Promise<void>
}) {
  const [told, setTold] = useState('')
  const send = async (file: File) => {
    setTold('Sending …')
    const form = new FormData()
    form.append('file', file)
    try {
      const answer = await fetch('/api/workshop/mark', {
        method: 'POST',
        body: form,
      })
      if (answer.ok) {
        await refresh()
        setTold('Kept.')
        return
      }
      const problem: unknown = await answer.json()
      const detail: unknown =
        typeof problem === 'object' && problem !== null
          ? Reflect.get(problem, 'detail')
          : undefined
      setTold(typeof detail === 'string' ? detail : 'It was not kept.')
    } catch {
      // No network, or an answer that is none: the same to who sends.
      setTold('The workshop could not be reached. Try again.')
    }
  }
  return (
    <div>
      <label className="flex flex-col gap-1.5">
        <span className="font-semibold">As a picture</span>
        <span className="text-ink-soft">
          PNG with a clear ground looks best. It takes the place of the words.
        </span>
        <input
          type="file"
          accept="image/png,image/jpeg,image/webp"
          className="min-h-12"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? []
            if (file !== undefined) void send(file)
          }}
        />
      </label>
      <p role="status" className="mt-1 empty:hidden">
        {told}
      </p>
    </div>
  )
}
