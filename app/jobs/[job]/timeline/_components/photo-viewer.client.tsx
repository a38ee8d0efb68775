'use client'

import { Suspense, lazy, useEffect, useRef, useState } from 'react'
import { photoSources } from '../../../../_components/photo-sources'

/** A photo with what it shows and when it was taken, in words. */
export type ShownPhoto = { readonly id: string; readonly words: string }

const MendPhoto = lazy(async () => ({
  default: (await import('./mend-photo.client')).MendPhoto,
}))

/** A finger that went this far, in pixels, meant the next photo. */
const swipePixels = 50

/** Photos one at a time and large: by swipe, arrow keys or buttons. */
export function PhotoViewer({
  job,
  photos,
  first,
  onClose,
}: {
  readonly job: string
  readonly photos: readonly ShownPhoto[]
  readonly first: number
  readonly onClose: () => void
}) {
  const dialog = useRef<HTMLDialogElement>(null)
  const touchedAt = useRef<number | undefined>(undefined)
  const [index, setIndex] = useState(first)
  const [isMending, setIsMending] = useState(false)
  const [said, setSaid] = useState('')
  useEffect(() => {
    dialog.current?.showModal()
  }, [])
  const photo = photos[index]
  if (photo === undefined) return null
  const go = (by: number) => {
    setIndex(Math.min(photos.length - 1, Math.max(0, index + by)))
    setIsMending(false)
    setSaid('')
  }
  return (
    // The arrow keys do what the two buttons below do.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a short cut to buttons that are there
    <dialog
      ref={dialog}
      aria-label="Photo"
      className="bg-paper text-ink m-auto max-h-[100dvh] w-full max-w-4xl p-3 backdrop:bg-black/70 panel-edge"
      onClose={onClose}
      onKeyDown={(event) => {
        // Within a field the arrow keys move in it.
        if (isMending) return
        if (event.key === 'ArrowRight') go(1)
        if (event.key === 'ArrowLeft') go(-1)
      }}
      onTouchStart={(event) => {
        touchedAt.current =
          event.touches.length === 1 ? event.touches[0]?.clientX : undefined
      }}
      onTouchEnd={(event) => {
        const began = touchedAt.current
        const ended = event.changedTouches[0]?.clientX
        touchedAt.current = undefined
        if (began === undefined || ended === undefined) return
        if (ended - began > swipePixels) go(-1)
        if (began - ended > swipePixels) go(1)
      }}
    >
      <img
        key={photo.id}
        {...photoSources({ id: photo.id })}
        sizes="min(100vw - 2rem, 60rem)"
        alt={photo.words}
        className={`bg-well mx-auto w-full object-contain ${isMending ? 'h-[30dvh]' : 'h-[60dvh]'}`}
      />
      <p className="mt-2" aria-live="polite">
        {photo.words}{' '}
        <span className="text-ink-soft whitespace-nowrap">
          {index + 1} of {photos.length}
        </span>
      </p>
      <div className="mt-3 flex flex-wrap gap-2">
        <button
          type="button"
          className="button"
          disabled={index === 0}
          onClick={() => {
            go(-1)
          }}
        >
          Earlier
        </button>
        <button
          type="button"
          className="button"
          disabled={index === photos.length - 1}
          onClick={() => {
            go(1)
          }}
        >
          Later
        </button>
        <button
          type="button"
          className="button"
          aria-expanded={isMending}
          onClick={() => {
            setIsMending(!isMending)
          }}
        >
          Mend it
        </button>
        <a href={`/jobs/${job}/photos/${photo.id}`} className="button">
          Its page
        </a>
        <button
          type="button"
          className="button button-main"
          onClick={() => dialog.current?.close()}
        >
          Close
        </button>
      </div>
      <p role="status" className="text-sound min-h-6 font-bold">
        {said}
      </p>
      {isMending && (
        <Suspense fallback={<p className="min-h-40">Looking it up …</p>}>
          <MendPhoto
            key={photo.id}
            job={job}
            photo={photo.id}
            onMended={(words) => {
              setIsMending(false)
              setSaid(words)
            }}
          />
        </Suspense>
      )}
    </dialog>
  )
}
