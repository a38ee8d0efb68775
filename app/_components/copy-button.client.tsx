'use client'

import { useEffect, useRef, useState } from 'react'

/** Puts text on the clipboard and says whether it got there. */
export function CopyButton({
  text,
  children,
}: {
  readonly text: string
  readonly children: string
}) {
  const [said, setSaid] = useState<'copied' | 'refused' | undefined>()
  const words = useRef<HTMLSpanElement>(null)
  useEffect(() => {
    // On a phone it may stand under what is fixed along the bottom.
    if (said === 'refused') words.current?.scrollIntoView({ block: 'center' })
  }, [said])
  return (
    <span className="inline-flex flex-wrap items-center gap-3">
      <button
        type="button"
        className="button button-main"
        onClick={() => {
          copy(text).then(
            () => {
              setSaid('copied')
            },
            () => {
              setSaid('refused')
            },
          )
        }}
      >
        {children}
      </button>
      <span
        ref={words}
        role="status"
        // While it says nothing it takes no room, and what stands beside the button no wider gap.
        className={`font-bold empty:-ml-3 ${said === 'refused' ? 'text-wet' : 'text-sound'}`}
      >
        {said === 'copied' && 'Copied.'}
        {said === 'refused' &&
          'Not copied: this browser does not allow it. Select the text and copy it by hand.'}
      </span>
    </span>
  )
}

async function copy(text: string): Promise<void> {
  // Absent where the page is not served securely, whatever the types say.
  if (!('clipboard' in navigator)) throw new Error('no clipboard')
  await navigator.clipboard.writeText(text)
}
