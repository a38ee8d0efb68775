'use client'

import { useEffect, useSyncExternalStore } from 'react'
import {
  type QueueView,
  emptyQueue,
  readQueueView,
  startSending,
  watchQueue,
} from './sender'

/** The queue of this phone, which is sent as long as something shows it. */
export function useQueue(): QueueView {
  useEffect(startSending, [])
  return useSyncExternalStore(watchQueue, readQueueView, () => emptyQueue)
}
