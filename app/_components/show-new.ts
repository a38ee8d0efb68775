import { readQueueView } from '../_queue/sender'

/**
 * Shows a page that was kept on this phone as it is now, once the workshop answers again. It stays as it is while
 * anything would be lost with it: what was typed or chosen, an open camera, photos that are not on the phone's disk yet.
 *
 * @returns ends it
 */
export function showNew(): () => void {
  let isTouched = false
  let isChoosing = false
  const touch = (event: Event) => {
    if (isFiles(event.target)) isChoosing = false
    else isTouched = true
  }
  const choose = (event: Event) => {
    isChoosing ||= isFiles(event.target)
  }
  const choseNone = (event: Event) => {
    if (isFiles(event.target)) isChoosing = false
  }
  const isInHand = () => {
    const { copying, inMemory } = readQueueView()
    return (
      isTouched ||
      isChoosing ||
      copying > 0 ||
      inMemory ||
      document.visibilityState !== 'visible' ||
      document.querySelector('dialog[open], video') !== null
    )
  }
  const look = async () => {
    if (!('kept' in document.documentElement.dataset) || isInHand()) return
    // A phone has a network again before it has the workshop's.
    const answers = await fetch('/api/health', { cache: 'no-store' }).then(
      ({ ok }) => ok,
      () => false,
    )
    if (answers && !isInHand()) location.reload()
  }
  const lookNow = () => void look()
  addEventListener('online', lookNow)
  document.addEventListener('visibilitychange', lookNow)
  document.addEventListener('input', touch, true)
  document.addEventListener('click', choose, true)
  document.addEventListener('cancel', choseNone, true)
  return () => {
    removeEventListener('online', lookNow)
    document.removeEventListener('visibilitychange', lookNow)
    document.removeEventListener('input', touch, true)
    document.removeEventListener('click', choose, true)
    document.removeEventListener('cancel', choseNone, true)
  }
}

function isFiles(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement && target.type === 'file'
}
