'use client'

import { type RefObject, useEffect } from 'react'

const mark = 'coatbookPanel'

/**
 * Opens and closes a dialog so that going back closes it and leaves the page where it is: on a phone a panel that fills the
 * screen is taken for a page.
 */
export function useBackCloses(dialog: RefObject<HTMLDialogElement | null>): {
  readonly open: () => void
  readonly close: () => void
} {
  useEffect(() => {
    const goneBack = () => {
      dialog.current?.close()
    }
    addEventListener('popstate', goneBack)
    return () => {
      removeEventListener('popstate', goneBack)
    }
  }, [dialog])
  return {
    open() {
      history.pushState({ ...history.state, [mark]: true }, '')
      dialog.current?.showModal()
    },
    close() {
      dialog.current?.close()
      // The entry that opening made goes with the panel.
      const state: unknown = history.state
      if (typeof state === 'object' && state !== null && mark in state) {
        history.back()
      }
    },
  }
}
