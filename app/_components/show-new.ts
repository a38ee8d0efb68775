import { hasUnsaved, readQueueView } from '../_queue/sender'

/**
 * Shows a page that was kept on this phone as it is now, once the workshop answers again. It stays as it is while
 * anything would be lost with it: what was typed or chosen, an open camera, photos that are not on the phone's disk yet.
 *
 * @returns ends it
 */
export function showNew(): () => void {
  let isTouched = false
  let isChoosing = false
  const isInHand = () =>
    isTouched ||
    isChoosing ||
    hasUnsaved(readQueueView()) ||
    document.visibilityState !== 'visible' ||
    document.querySelector('dialog[open], video') !== null
  const look = async () => {
    if (!('kept' in document.documentElement.dataset) || isInHand()) return
    // A phone has a network again before it has the workshop's.
    const answers = await fetch('/api/health', { cache: 'no-store' }).then(
      ({ ok }) => ok,
      () => false,
    )
    if (answers && !isInHand()) location.reload()
  }
  const ending = new AbortController()
  const { signal } = ending
  const lookNow = () => void look()
  addEventListener('online', lookNow, { signal })
  document.addEventListener('visibilitychange', lookNow, { signal })
  for (const what of ['click', 'input', 'cancel']) {
    document.addEventListener(
      what,
      ({ target }) => {
        // Photos are chosen from its click on, until some come or none.
        if (target instanceof HTMLInputElement && target.type === 'file')
          isChoosing = what === 'click'
        else if (what === 'input') isTouched = true
      },
      { capture: true, signal },
    )
  }
  return () => {
    ending.abort()
  }
}
