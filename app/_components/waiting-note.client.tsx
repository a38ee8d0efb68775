'use client'

import { useEffect, useState } from 'react'
import type { Waiting } from '#core/queue/queue'
import { readWaiting } from '../_queue/phone-store'
import { waitingWords } from './waiting-words'

/**
 * What waits on this phone, for a page that turns it away. It is only read: sent to a closed door, each photo would go
 * over the line for nothing, and the pause after that would hold up what can go once the door is open.
 *
 * @param once what the phone must be before anything goes out
 */
export function WaitingNote({ once }: { readonly once: string }) {
  const [waiting, setWaiting] = useState<readonly Waiting[]>([])
  useEffect(() => {
    void readWaiting().then(setWaiting)
  }, [])
  const words = waitingWords(waiting, once)
  return words === '' ? null : <p className="mt-6 max-w-prose">{words}</p>
}
