'use client'

import { useState } from 'react'

/** Puts text on the clipboard and says whether it got there. */
export function CopyButton({
  text,
  children,
}: {
  readonly text: string
  readonly children: string
}) {
  const [said, setSaid] = useState('')
  return (
    <span className="inline-flex flex-wrap items-center gap-3">
      <button
        type="button"
        className="button button-main"
        onClick={() => {
          copy(text).then(
            () => {
              setSaid('Copied.')
            },
            () => {
              setSaid(
                'This browser does not let it be copied. Select the text and copy it by hand.',
              )
            },
          )
        }}
      >
        {children}
      </button>
      <span role="status" className="text-sound font-bold">
        {said}
      </span>
    </span>
  )
}

async function copy(text: string): Promise<void> {
  // Absent where the page is not served securely, whatever the types say.
  if (!('clipboard' in navigator)) throw new Error('no clipboard')
  await navigator.clipboard.writeText(text)
}
