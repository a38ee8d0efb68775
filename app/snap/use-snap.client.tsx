'use client'

import { useEffect, useSyncExternalStore } from 'react'
import { type SnapChoice, likeliestChoice } from './snap-choice'
import {
  type SnapMemory,
  nothingRemembered,
  readSnapMemory,
  startSnapMemory,
  watchSnapMemory,
} from './snap-memory'

/** What the next photo is of, and what this phone remembers of it. */
export function useSnap(
  choices: readonly SnapChoice[],
  job: string | undefined,
): SnapMemory {
  useEffect(startSnapMemory, [])
  const memory = useSyncExternalStore(
    watchSnapMemory,
    readSnapMemory,
    () => nothingRemembered,
  )
  return { ...memory, chosen: likeliestChoice(choices, memory.chosen, job) }
}
