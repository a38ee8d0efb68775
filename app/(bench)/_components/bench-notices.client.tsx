'use client'

import { startTransition, useEffect, useState } from 'react'

/** Something to be told of when it comes. */
export type Notice = {
  readonly id: string
  readonly title: string
  readonly body: string
  /** Until then, counted from when the page was made. */
  readonly inMilliseconds: number
}

/** Whether notices can be had: `ask` until the owner has said, `none` where the browser has none or keeps them back. */
type Standing = 'ask' | 'on' | 'off' | 'refused' | 'none'

const choiceKey = 'coatbook.notices'
/** A timer for longer would fire at once; the bench is read anew long before. */
const longestTimer = 24 * 3_600_000

/**
 * Tells, while the app is open, when something is ready or a window is about to close. Permission is asked for only by a
 * tap; where notices are not to be had, it says so and what to do instead.
 */
export function BenchNotices({
  notices,
}: {
  readonly notices: readonly Notice[]
}) {
  const [standing, setStanding] = useState<Standing | null>(null)
  useEffect(
    () =>
      listen(() => {
        startTransition(() => {
          setStanding(readStanding())
        })
      }),
    [],
  )
  const [said, setSaid] = useState('')
  useEffect(() => {
    const timers = notices
      .filter((notice) => notice.inMilliseconds < longestTimer)
      .map((notice) =>
        setTimeout(() => {
          if (wasTold(notice.id)) return
          setSaid(notice.title)
          if (readStanding() === 'on') void show(notice)
        }, notice.inMilliseconds),
      )
    return () => {
      timers.forEach(clearTimeout)
    }
  }, [notices])
  return (
    <section
      aria-labelledby="notices"
      className="card flex min-h-40 flex-col items-start gap-3 p-4"
    >
      <h2 id="notices" className="text-lead font-bold">
        Be told
      </h2>
      <p className="text-ink-soft max-w-prose">
        {standing === null ? '' : standingWords[standing]}
      </p>
      {standing === 'ask' && (
        <button type="button" className="button" onClick={() => void ask()}>
          Tell me when a coat is ready
        </button>
      )}
      {(standing === 'on' || standing === 'off') && (
        <button
          type="button"
          className="button"
          onClick={() => {
            choose(standing === 'on' ? 'off' : 'on')
          }}
        >
          {standing === 'on' ? 'Stop telling me' : 'Tell me again'}
        </button>
      )}
      <p role="status" className="sr-only">
        {said}
      </p>
    </section>
  )
}

const standingWords: Readonly<Record<Standing, string>> = {
  ask: 'A notice when a coat is ready, and half an hour before a window closes, while this page is open.',
  on: 'Notices are on while this page is open: when a coat is ready, and half an hour before a window closes.',
  off: 'Notices are off.',
  refused:
    'This browser was told to show no notices from here. Allow them in its settings for this site, or subscribe to the calendar below.',
  none: 'This browser gives no notices here: on some phones only an app on the home screen gets them, and everywhere only over https or on the workshop’s own machine. The calendar below works all the same.',
}

const changed = 'coatbook-notices'

/** Calls when the standing may have changed, and once soon: a page waits while its browser looks a permission up. */
function listen(onChange: () => void): () => void {
  const timer = setTimeout(onChange, 50)
  window.addEventListener(changed, onChange)
  window.addEventListener('focus', onChange)
  return () => {
    clearTimeout(timer)
    window.removeEventListener(changed, onChange)
    window.removeEventListener('focus', onChange)
  }
}

function readStanding(): Standing {
  if (!('Notification' in window) || !window.isSecureContext) return 'none'
  if (stored(choiceKey) === 'none') return 'none'
  if (Notification.permission === 'denied') return 'refused'
  if (Notification.permission === 'default') return 'ask'
  return stored(choiceKey) === 'off' ? 'off' : 'on'
}

async function ask(): Promise<void> {
  await Notification.requestPermission()
  choose('on')
}

function choose(choice: 'on' | 'off' | 'none') {
  store(choiceKey, choice)
  window.dispatchEvent(new Event(changed))
}

async function show({ id, title, body }: Notice): Promise<void> {
  const options = { body, tag: id, icon: '/icon.svg' }
  const worker = await navigator.serviceWorker.getRegistration()
  if (worker !== undefined) {
    await worker.showNotification(title, options)
    return
  }
  try {
    new Notification(title, options).onclick = () => {
      window.focus()
    }
  } catch {
    // Phones give notices only through a service worker, and there is none.
    choose('none')
  }
}

/** Whether this was told before, in this tab or another; from now on it was. */
function wasTold(id: string): boolean {
  const told = (stored('coatbook.told') ?? '').split(' ')
  if (told.includes(id)) return true
  store('coatbook.told', [...told.slice(-40), id].join(' '))
  return false
}

function stored(key: string): string | null {
  try {
    return localStorage.getItem(key)
  } catch {
    return null
  }
}

function store(key: string, value: string) {
  try {
    localStorage.setItem(key, value)
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}
