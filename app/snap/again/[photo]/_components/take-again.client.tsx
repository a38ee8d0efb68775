'use client'

import Link from 'next/link'
import { Suspense, lazy, useState, useSyncExternalStore } from 'react'
import { FileButton } from '../../../../_queue/file-button.client'
import { QueueList } from '../../../../_queue/queue-list.client'
import { queuePhotos } from '../../../../_queue/sender'
import { useQueue } from '../../../../_queue/use-queue.client'

// Only who opens the camera loads it.
const LiveCamera = lazy(async () => ({
  default: (await import('./live-camera.client')).LiveCamera,
}))

export type BeforePhoto = {
  readonly src: string
  readonly srcSet: string
  readonly alt: string
  readonly width: number
  readonly height: number
}

/**
 * Takes a view again: over the live camera where the browser gives it, else with the phone's own camera and the before
 * photo beside it.
 */
export function TakeAgain({
  job,
  view,
  before,
}: {
  readonly job: string
  readonly view: string | undefined
  readonly before: BeforePhoto
}) {
  const queue = useQueue()
  const canBeLive = useSyncExternalStore(
    () => () => undefined,
    // Absent where the page is not served securely, whatever the types say.
    () => 'mediaDevices' in navigator,
    () => true,
  )
  const [live, setLive] = useState(false)
  const [refusal, setRefusal] = useState('')
  const [taken, setTaken] = useState(0)
  function keep(files: readonly File[]) {
    void queuePhotos(files, {
      job,
      fields: [
        ['role', 'after'],
        ...(view === undefined ? [] : [['view', view] as const]),
      ],
    }).then(() => {
      setTaken((before) => before + files.length)
    })
  }
  return (
    <div className="flex max-w-3xl flex-col gap-4">
      {live ? (
        <Suspense
          fallback={
            <div
              className="bg-well rounded-card grid w-full place-items-center"
              style={{ aspectRatio: `${before.width} / ${before.height}` }}
            >
              Opening the camera
            </div>
          }
        >
          <LiveCamera
            before={before}
            onPhoto={(photo) => {
              keep([photo])
            }}
            onRefused={(why) => {
              setRefusal(why)
              setLive(false)
            }}
          />
        </Suspense>
      ) : (
        <img
          src={before.src}
          srcSet={before.srcSet}
          sizes="calc(100vw - 2rem)"
          fetchPriority="high"
          alt={before.alt}
          width={before.width}
          height={before.height}
          className="bg-well rounded-card h-auto max-h-[60dvh] w-full object-contain"
        />
      )}
      {refusal !== '' && (
        <p role="status" className="text-late font-semibold">
          {refusal}
        </p>
      )}
      {!canBeLive && (
        <p className="text-ink-soft">
          This browser lends its camera only to a page that is served securely,
          so the before photo cannot be laid over it. Look at it here and use
          the phone’s own camera.
        </p>
      )}
      {/* Here, where the eye is: what becomes of it stands below the fold. */}
      <div role="status" className="empty:hidden">
        {taken > 0 && (
          <p className="text-sound font-bold">
            {taken === 1 ? 'Taken, and kept.' : `${taken} taken, and kept.`}{' '}
            <Link
              prefetch={false}
              href="/snap"
              className="link inline-flex min-h-12 items-center"
            >
              On to another view
            </Link>
          </p>
        )}
      </div>
      <div className="flex flex-wrap gap-3">
        {canBeLive && !live && (
          <button
            type="button"
            className="button button-main min-h-14 grow sm:grow-0"
            onClick={() => {
              setRefusal('')
              void askForTilt().then(() => {
                setLive(true)
              })
            }}
          >
            Lay it over the camera
          </button>
        )}
        <FileButton capture main={!canBeLive} onFiles={keep}>
          Use the phone’s camera
        </FileButton>
        <FileButton onFiles={keep}>Choose photos</FileButton>
      </div>
      <QueueList queue={queue} label="What waits on this phone" />
    </div>
  )
}

/** Some phones tell how they are held only when they are asked from a tap; without it there is no level line. */
async function askForTilt(): Promise<void> {
  const motion: unknown = Reflect.get(globalThis, 'DeviceMotionEvent')
  if (typeof motion !== 'function') return
  const ask: unknown = Reflect.get(motion, 'requestPermission')
  if (typeof ask !== 'function') return
  try {
    await (ask as () => Promise<string>).call(motion)
  } catch {
    // The camera is of use without it.
  }
}
