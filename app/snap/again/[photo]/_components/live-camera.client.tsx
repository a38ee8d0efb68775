'use client'

import { useEffect, useRef, useState } from 'react'
import { type GreyFrame, viewOverlap } from '#core/photos/view-overlap'
import type { BeforePhoto } from './take-again.client'

/** Small enough to be compared several times a second, large enough to tell two views apart. */
const frameWidth = 64
const everyMilliseconds = 300
/** Of the demo's pairs, the same view from the same place lies above it and every other view below. */
const goodOverlap = 0.6
/** A hand's width off, in parts of the picture; below it a hint would only make the hand tremble. */
const smallestMove = 0.03
const levelDegrees = 2

/** The live camera with the before photo half transparent over it, a level line, and a word on how well they meet. */
export function LiveCamera({
  before,
  onPhoto,
  onRefused,
}: {
  readonly before: BeforePhoto
  readonly onPhoto: (photo: File) => void
  readonly onRefused: (why: string) => void
}) {
  const video = useRef<HTMLVideoElement>(null)
  const ghost = useRef<HTMLImageElement>(null)
  const refuse = useRef(onRefused)
  useEffect(() => {
    refuse.current = onRefused
  }, [onRefused])
  const [strength, setStrength] = useState(50)
  const [hint, setHint] = useState('')
  const [good, setGood] = useState(false)
  const tilt = useTilt()

  useEffect(() => {
    let stream: MediaStream | undefined
    let over = false
    navigator.mediaDevices
      .getUserMedia({
        audio: false,
        video: {
          facingMode: 'environment',
          width: { ideal: 4096 },
          height: { ideal: 2160 },
        },
      })
      .then(
        async (opened) => {
          stream = opened
          if (over) close(opened)
          else if (video.current !== null) {
            video.current.srcObject = opened
            await video.current.play()
          }
        },
        (error: unknown) => {
          refuse.current(
            // Source: Media Capture and Streams, W3C, getUserMedia.
            error instanceof DOMException && error.name === 'NotFoundError'
              ? 'No camera was found here. Choose photos, or open this page on your phone.'
              : 'The camera was not given to this page. Allow it in the browser’s settings for this page, or use the phone’s own camera.',
          )
        },
      )
      .catch(() => undefined)
    return () => {
      over = true
      close(stream)
    }
  }, [])

  useEffect(() => {
    const height = Math.max(
      16,
      Math.round((frameWidth * before.height) / before.width),
    )
    const canvas = document.createElement('canvas')
    canvas.width = frameWidth
    canvas.height = height
    const timer = setInterval(() => {
      const [live, photo] = [video.current, ghost.current]
      if (live === null || photo === null || live.videoWidth === 0) return
      if (!photo.complete || photo.naturalWidth === 0) return
      const one = greyOf(canvas, photo, photo.naturalWidth, photo.naturalHeight)
      const other = greyOf(canvas, live, live.videoWidth, live.videoHeight)
      if (one === undefined || other === undefined) return
      const found = viewOverlap(one, other)
      setGood(found.overlap >= goodOverlap)
      setHint(found.overlap >= goodOverlap ? '' : hintFor(found))
    }, everyMilliseconds)
    return () => {
      clearInterval(timer)
    }
  }, [before.width, before.height])

  async function take() {
    const live = video.current
    if (live !== null) onPhoto(await photoOf(live))
  }

  const isLevel = tilt !== undefined && Math.abs(tilt) <= levelDegrees
  return (
    <div className="flex flex-col gap-3">
      <div
        className={`rounded-card relative w-full overflow-hidden border-4 bg-black ${good ? 'border-sound' : 'border-line-strong border-dashed'}`}
        style={{ aspectRatio: `${before.width} / ${before.height}` }}
      >
        <video
          ref={video}
          playsInline
          muted
          aria-label="The live camera"
          className="absolute inset-0 size-full object-cover"
        />
        <img
          ref={ghost}
          src={before.src}
          alt={before.alt}
          className="absolute inset-0 size-full object-cover"
          style={{ opacity: strength / 100 }}
        />
        {tilt !== undefined && (
          <svg
            aria-hidden="true"
            viewBox="-50 -4 100 8"
            className="absolute inset-x-0 top-1/2 w-full -translate-y-1/2"
          >
            <path d="M-50 0h30M20 0h30" stroke="white" strokeWidth="0.8" />
            <path
              d="M-18 0h36"
              stroke="white"
              strokeWidth={isLevel ? 1.6 : 0.8}
              transform={`rotate(${-tilt})`}
            />
          </svg>
        )}
      </div>
      <p role="status" className="min-h-14 font-bold">
        {good ? 'Good: hold it there and take it.' : hint}
        {tilt !== undefined && !isLevel && (
          <span className="text-late block">
            Tilted by {Math.round(Math.abs(tilt))}°: turn it{' '}
            {tilt > 0 ? 'anticlockwise' : 'clockwise'}.
          </span>
        )}
      </p>
      <label className="flex items-center gap-3 font-semibold">
        Before photo
        <input
          type="range"
          min={0}
          max={100}
          value={strength}
          onChange={(event) => {
            setStrength(Number(event.target.value))
          }}
          className="h-12 grow accent-(--press)"
        />
      </label>
      <button
        type="button"
        className="button button-main min-h-16"
        onClick={() => void take()}
      >
        Take it
      </button>
    </div>
  )
}

function close(stream: MediaStream | undefined): void {
  for (const track of stream?.getTracks() ?? []) track.stop()
}

/** Which way to turn, so that what the camera sees comes to lie on the before photo. */
function hintFor(found: ReturnType<typeof viewOverlap>): string {
  if (found.best < goodOverlap) {
    return 'Not the same view yet: line the edges up with those of the before photo.'
  }
  // What must go right on the picture goes right when the camera turns left.
  const ways = [
    found.right > smallestMove ? 'left' : '',
    found.right < -smallestMove ? 'right' : '',
    found.down > smallestMove ? 'up' : '',
    found.down < -smallestMove ? 'down' : '',
  ].filter((way) => way !== '')
  return ways.length === 0
    ? 'Nearly there.'
    : `Nearly there: a little ${ways.join(' and ')}.`
}

/** The middle of a picture, in the shape of the canvas, as greys (ITU-R BT.601 luma). */
function greyOf(
  canvas: HTMLCanvasElement,
  source: CanvasImageSource,
  width: number,
  height: number,
): GreyFrame | undefined {
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (context === null) return undefined
  const scale = Math.max(canvas.width / width, canvas.height / height)
  const [w, h] = [width * scale, height * scale]
  context.drawImage(
    source,
    (canvas.width - w) / 2,
    (canvas.height - h) / 2,
    w,
    h,
  )
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height)
  const values = new Uint8Array(canvas.width * canvas.height)
  for (let index = 0; index < values.length; index++) {
    const [red = 0, green = 0, blue = 0] = data.subarray(4 * index)
    values[index] = 0.299 * red + 0.587 * green + 0.114 * blue
  }
  return { width: canvas.width, height: canvas.height, values }
}

/** How far the phone is turned about the line of sight, clockwise in degrees; undefined where it does not tell. */
function useTilt(): number | undefined {
  const [tilt, setTilt] = useState<number>()
  useEffect(() => {
    const tell = (event: DeviceMotionEvent) => {
      const { x, y } = event.accelerationIncludingGravity ?? {}
      // Lying flat, the phone has no up and down.
      if (typeof x !== 'number' || typeof y !== 'number') return
      if (Math.hypot(x, y) < 4) return
      const degrees = (Math.atan2(x, y) * 180) / Math.PI
      // Upright or on its side: what counts is how far it is from the nearer of them.
      setTilt(-(degrees - 90 * Math.round(degrees / 90)))
    }
    addEventListener('devicemotion', tell)
    return () => {
      removeEventListener('devicemotion', tell)
    }
  }, [])
  return tilt
}

/** The newer way to a photo of full size, which not every browser has. */
type StillCamera = { readonly takePhoto: () => Promise<Blob> }

async function photoOf(live: HTMLVideoElement): Promise<File> {
  const stream = live.srcObject
  const track =
    stream instanceof MediaStream ? stream.getVideoTracks()[0] : undefined
  const Still: unknown = Reflect.get(globalThis, 'ImageCapture')
  if (track !== undefined && typeof Still === 'function') {
    try {
      const still = new (Still as new (of: MediaStreamTrack) => StillCamera)(
        track,
      )
      return asFile(await still.takePhoto())
    } catch {
      // Some phones have it and refuse: the frame on the screen will do.
    }
  }
  const canvas = document.createElement('canvas')
  canvas.width = live.videoWidth
  canvas.height = live.videoHeight
  canvas.getContext('2d')?.drawImage(live, 0, 0)
  const frame = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/jpeg', 0.95)
  })
  // Given back at once: some phones have little memory for canvases.
  canvas.width = 0
  if (frame === null) throw new Error('the camera gave no picture')
  return asFile(frame)
}

function asFile(photo: Blob): File {
  return new File(
    [photo],
    `view-${new Date().toISOString().slice(0, 19).replaceAll(':', '-')}.jpg`,
    {
      type: photo.type || 'image/jpeg',
    },
  )
}
