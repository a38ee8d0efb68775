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
      <p className="font-semibold">As a picture</p>
      <p id="mark-hint" className="text-ink-soft mb-2">
        PNG with a clear ground looks best. It takes the place of the words.
      </p>
      <label className="button relative has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-(--press)">
        Choose a picture
        <input
          type="file"
          accept="image/png,image/jpeg,image/webp"
          aria-describedby="mark-hint"
          className="absolute inset-0 size-full cursor-pointer opacity-0"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? []
            // The same file chosen again must count as a choice.
            event.currentTarget.value = ''
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
