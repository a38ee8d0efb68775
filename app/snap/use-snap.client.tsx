'use client'

import { useEffect, useSyncExternalStore } from 'react'
import { useQueue } from '../_queue/use-queue.client'
import {
  type SnapChoice,
  type SnapPage,
  idOfStep,
  likeliestChoice,
} from './snap-choice'
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
  page: SnapPage,
): SnapMemory {
  useEffect(startSnapMemory, [])
  const memory = useSyncExternalStore(
    watchSnapMemory,
    readSnapMemory,
    () => nothingRemembered,
  )
  const { done } = useQueue()
  const { chosen } = memory
  const step = chosen === undefined ? undefined : idOfStep(chosen, done)
  const remembered =
    chosen === undefined || step === undefined ? chosen : { ...chosen, step }
  return { ...memory, chosen: likeliestChoice(choices, remembered, page) }
}
