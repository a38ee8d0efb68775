'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { queueCounts } from '#core/queue/queue'
import { PhotoInput } from '../_queue/file-button.client'
import { useQueue } from '../_queue/use-queue.client'
import { type SnapChoice, doingOf } from '../snap/snap-choice'
import { cameraOpens, forgetCamera, snap, takeBegun } from '../snap/snap-memory'
import { useSnap } from '../snap/use-snap.client'
import { LineIcon } from './line-icon'

/**
 * The step in hand and the button that takes a photo of it, where the thumb is, on every page of a phone; and how this
 * phone's queue stands. Whatever was sent is shown on the page at once.
 */
export function SnapBar({
  choices,
  hand,
  refresh,
}: {
  readonly choices: readonly SnapChoice[]
  readonly hand: 'left' | 'right'
  /** Shows the page as it is once something was kept. */
  readonly refresh: () => Promise<void>
}) {
  const path = usePathname()
  const [, job, step] =
    /^\/jobs\/([^/]+)\/(?:steps\/([^/]+)$)?/.exec(path) ?? []
  const { chosen, doing, warning, interrupted } = useSnap(choices, {
    job,
    step,
  })
  const begun = choices.find((one) => one.step === step && one.isBegun === true)
  useEffect(() => {
    if (begun !== undefined) void takeBegun(begun)
  }, [begun])
  const queue = useQueue()
  const counts = queueCounts(queue.waiting)
  const { waiting, setAside, unreachable } = counts
  const warned = warning?.of === chosen?.id ? warning?.words : undefined
  const open = queue.copying + (unreachable ? 0 : waiting)
  const keptPhotos = queue.done.filter(({ kind }) => kind === 'photo').length
  const kept = keptPhotos === 0 ? '' : `${keptPhotos} kept`
  const sent = queue.done.length === 0 ? '' : queue.done[0]?.key
  const shownKey = useRef(sent)
  useEffect(() => {
    if (open > 0 || shownKey.current === sent) return
    shownKey.current = sent
    // A page that cannot be had now is shown anew the next time.
    refresh().catch(() => undefined)
  }, [open, sent, refresh])
  // Where a view is taken again, the photo is an after and of no step.
  if (chosen === undefined || path.startsWith('/snap/again/')) return null
  return (
    <aside
      aria-label="Snap"
      className="border-line-strong bg-paper fixed inset-x-0 bottom-(--bar) z-20 border-t-2 print:hidden sm:bottom-0 pointer-fine:sm:hidden"
    >
      {interrupted && (
        <p className="bg-late-soft text-late px-4 py-2 font-semibold">
          The browser was ended while the camera was open. If the photo is in
          your gallery,{' '}
          <Link
            prefetch={false}
            href="/snap"
            className="underline"
            onClick={() => void forgetCamera()}
          >
            choose it there
          </Link>
          .
        </p>
      )}
      <div
        className={`@container flex items-stretch gap-3 p-2 ${hand === 'left' ? 'flex-row-reverse' : ''}`}
      >
        <Link
          prefetch={false}
          href={job === undefined ? '/snap' : `/snap?job=${job}`}
          className="hover:bg-well rounded-control flex min-h-(--bar) min-w-0 grow flex-col justify-center px-2"
        >
          {/* What the photo will be of is read whole; in large text two lines of it, or the bar would cover the page. */}
          <span className="line-clamp-2 leading-tight font-bold wrap-anywhere">
            {chosen.title}
          </span>
          <span
            className={`text-small truncate ${setAside > 0 || warned !== undefined ? 'text-wet font-bold' : unreachable && waiting > 0 ? 'text-late font-bold' : 'text-ink-soft'}`}
          >
            {[
              warned,
              statusWords({ ...counts, waiting: waiting + queue.copying }),
            ]
              .filter((one) => one !== undefined)
              .join(', ') ||
              [kept, chosen.detail].filter((one) => one !== '').join(' · ')}
          </span>
        </Link>
        <span role="status" className="sr-only">
          {kept}
        </span>
        <label className="button button-main has-focus-visible:outline-(--press) min-h-(--bar) w-[min(7rem,40%)] shrink-0 flex-col gap-0 px-1 py-1 leading-tight has-focus-visible:outline-3 has-focus-visible:outline-offset-2">
          <LineIcon
            path="M4 8h3.500l1.500-2.500h6l1.500 2.500H20v11H4zM12 10a3.300 3.300 0 1 0 .1 0"
            className="size-7"
          />
          Snap
          <PhotoInput
            capture
            onOpen={() => {
              cameraOpens(chosen)
            }}
            onFiles={(files) =>
              void snap(files, chosen, doingOf(chosen, doing))
            }
          />
        </label>
      </div>
    </aside>
  )
}

function statusWords({
  waiting,
  setAside,
  unreachable,
  turnedAway,
}: ReturnType<typeof queueCounts>): string | undefined {
  const stuck = setAside > 0 ? `${setAside} not sent` : ''
  const open =
    waiting === 0
      ? ''
      : turnedAway
        ? `Pair again to send ${waiting}`
        : unreachable
          ? `${waiting} waiting for the workshop`
          : `Sending ${waiting}`
  return [stuck, open].filter((one) => one !== '').join(', ') || undefined
}
