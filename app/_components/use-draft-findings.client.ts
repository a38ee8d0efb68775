'use client'

import { useRef, useState } from 'react'
import type { DraftFinding } from './draft-findings'

/** Long enough that a person tapping three surfaces asks once. */
const pauseMilliseconds = 350

/** What was found of a draft of a step, and a way to ask for it, which waits until nothing was changed for a moment. */
export function useDraftFindings(): readonly [
  findings: readonly DraftFinding[],
  ask: (judge: () => Promise<readonly DraftFinding[]>) => void,
] {
  const [findings, setFindings] = useState<readonly DraftFinding[]>([])
  const asked = useRef<ReturnType<typeof setTimeout>>(undefined)
  return [
    findings,
    (judge) => {
      clearTimeout(asked.current)
      asked.current = setTimeout(() => {
        judge().then(setFindings, () => {
          // A hint that could not be had is no reason to stop the work.
          setFindings([])
        })
      }, pauseMilliseconds)
    },
  ]
}
