'use client'

import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import type { Point } from '#core/geometry/homography'
import { photoSources } from '../../../../../../_components/photo-sources'
import type { HandPhoto } from './hand-alignment.client'

/** Of the photo's width: one press of an arrow key, and with Shift. */
const smallStep = 0.001
const largeStep = 0.01
/** How many times larger the lens shows what is under a finger. */
const enlargement = 4

const arrows: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
}

/** A drag that is under way: how far from the point it was taken hold of, in pixels of the photo. */
type Drag = { readonly pointer: number; readonly hold: Point }

/** A photo with four numbered points to move: by a finger or the mouse, by a tap where one belongs, or by keys. */
export function PointedPhoto({
  photo,
  name,
  points,
  chosen,
  onChoose,
  onStart,
  onMove,
}: {
  readonly photo: HandPhoto
  readonly name: string
  /** In upright pixels of the whole photo. */
  readonly points: readonly Point[]
  /** The point that a tap on the photo moves. */
  readonly chosen: number
  readonly onChoose: (index: number) => void
  /** Called once before each move, however many steps it has. */
  readonly onStart: () => void
  readonly onMove: (index: number, to: Point) => void
}) {
  const picture = useRef<HTMLDivElement>(null)
  const drag = useRef<Drag>(null)
  // The point that is being moved, and how wide the photo is on the screen.
  const [seen, setSeen] = useState<{ index: number; across: number }>()
  const { width, height } = photo

  const within = ({ x, y }: Point): Point => ({
    x: Math.min(width, Math.max(0, x)),
    y: Math.min(height, Math.max(0, y)),
  })
  const placeOf = (event: PointerEvent): Point => {
    const box = picture.current?.getBoundingClientRect()
    if (box === undefined) return { x: 0, y: 0 }
    return {
      x: ((event.clientX - box.left) / box.width) * width,
      y: ((event.clientY - box.top) / box.height) * height,
    }
  }
  const look = (index: number) => {
    setSeen({ index, across: picture.current?.clientWidth ?? 0 })
  }
  const takeHold = (event: PointerEvent, index: number) => {
    const point = points[index]
    if (point === undefined || event.button !== 0) return
    const at = placeOf(event)
    event.currentTarget.setPointerCapture(event.pointerId)
    drag.current = {
      pointer: event.pointerId,
      hold: { x: point.x - at.x, y: point.y - at.y },
    }
    onChoose(index)
    look(index)
    onStart()
  }
  const dragOn = (event: PointerEvent, index: number) => {
    if (drag.current?.pointer !== event.pointerId) return
    const at = placeOf(event)
    const { hold } = drag.current
    onMove(index, within({ x: at.x + hold.x, y: at.y + hold.y }))
  }
  const letGo = (event: PointerEvent) => {
    if (drag.current?.pointer !== event.pointerId) return
    drag.current = null
    setSeen(undefined)
  }
  const byKey = (event: KeyboardEvent, index: number) => {
    const way = arrows[event.key]
    const point = points[index]
    if (way === undefined || point === undefined) return
    event.preventDefault()
    const step = (event.shiftKey ? largeStep : smallStep) * width
    // A key that is held down is one move.
    if (!event.repeat) onStart()
    onMove(
      index,
      within({ x: point.x + way.x * step, y: point.y + way.y * step }),
    )
    look(index)
  }
  const shown = seen === undefined ? undefined : points[seen.index]
  return (
    <div className="min-w-0">
      <h3 className="mb-2 font-semibold">{name}</h3>
      <div
        ref={picture}
        // A reader of screens hands the arrow keys on to what is in here.
        role="application"
        aria-label={`${name} photo with four points`}
        className="card bg-well relative touch-pan-y overflow-hidden select-none"
      >
        <img
          {...photoSources(photo)}
          sizes="(min-width: 48rem) min(35rem, 50vw), calc(100vw - 2rem)"
          fetchPriority="high"
          alt=""
          width={width}
          height={height}
          draggable={false}
          className="block h-auto w-full"
        />
        <button
          type="button"
          tabIndex={-1}
          aria-hidden="true"
          className="absolute inset-0 size-full cursor-crosshair"
          onPointerUp={(event) => {
            if (event.button !== 0) return
            onStart()
            onMove(chosen, within(placeOf(event)))
          }}
        />
        <svg
          aria-hidden="true"
          viewBox={`0 0 ${width} ${height}`}
          className="pointer-events-none absolute inset-0 size-full"
        >
          {['var(--ink)', 'var(--paper)'].map((colour, index) => (
            <polygon
              key={colour}
              points={points.map(({ x, y }) => `${x},${y}`).join(' ')}
              fill="none"
              stroke={colour}
              strokeWidth={index === 0 ? 3 : 1}
              vectorEffect="non-scaling-stroke"
            />
          ))}
        </svg>
        {points.map((point, index) => (
          <button
            key={index}
            type="button"
            aria-label={`${name}, point ${index + 1}: ${percent(point.x / width)} from the left, ${percent(point.y / height)} from the top`}
            aria-pressed={index === chosen}
            className="absolute grid size-12 -translate-1/2 cursor-grab touch-none place-items-center rounded-full focus-visible:outline-offset-0 active:cursor-grabbing"
            style={{
              left: `${(point.x / width) * 100}%`,
              top: `${(point.y / height) * 100}%`,
            }}
            onPointerDown={(event) => {
              takeHold(event, index)
            }}
            onPointerMove={(event) => {
              dragOn(event, index)
            }}
            onPointerUp={letGo}
            onPointerCancel={letGo}
            onFocus={() => {
              onChoose(index)
            }}
            onBlur={() => {
              setSeen(undefined)
            }}
            onKeyDown={(event) => {
              byKey(event, index)
            }}
          >
            <PointMark number={index + 1} isChosen={index === chosen} />
          </button>
        ))}
        {seen !== undefined && shown !== undefined && (
          <Lens photo={photo} at={shown} width={seen.across} />
        )}
      </div>
    </div>
  )
}

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`
}

/** A ring with a clear middle, so that the place itself is seen, and its number beside it. */
function PointMark({
  number,
  isChosen,
}: {
  readonly number: number
  readonly isChosen: boolean
}) {
  return (
    <svg viewBox="0 0 48 48" width="48" height="48" fill="none">
      <circle cx="24" cy="24" r="11" stroke="var(--ink)" strokeWidth="5" />
      <circle cx="24" cy="24" r="11" stroke="var(--paper)" strokeWidth="2" />
      <path
        d="M24 8v10M24 30v10M8 24h10M30 24h10"
        stroke="var(--ink)"
        strokeWidth="3.5"
      />
      <path
        d="M24 8v10M24 30v10M8 24h10M30 24h10"
        stroke="var(--paper)"
        strokeWidth="1.5"
      />
      <circle
        cx="38"
        cy="10"
        r="9"
        fill={isChosen ? 'var(--press)' : 'var(--paper)'}
        stroke="var(--ink)"
      />
      <text
        x="38"
        y="14.5"
        textAnchor="middle"
        fontSize="13"
        fontWeight="700"
        fill={isChosen ? 'var(--press-ink)' : 'var(--ink)'}
      >
        {number}
      </text>
    </svg>
  )
}

/** What lies under a point, larger, in the corner that is farther from it: a finger hides the place itself. */
function Lens({
  photo,
  at,
  width,
}: {
  readonly photo: HandPhoto
  readonly at: Point
  /** Of the photo on the screen. */
  readonly width: number
}) {
  const across = width * enlargement
  const down = (across * photo.height) / photo.width
  const isLeft = at.x > photo.width / 2
  return (
    <div
      aria-hidden="true"
      className={`border-ink pointer-events-none absolute top-2 size-32 rounded-full border-2 bg-no-repeat ${isLeft ? 'left-2' : 'right-2'}`}
      style={{
        backgroundImage: `url(/api/photos/${photo.id}/zoom)`,
        backgroundSize: `${across}px ${down}px`,
        backgroundPosition: `${62 - (at.x / photo.width) * across}px ${62 - (at.y / photo.height) * down}px`,
      }}
    >
      <svg viewBox="0 0 128 128" className="size-full" fill="none">
        {['var(--ink)', 'var(--paper)'].map((colour, index) => (
          <path
            key={colour}
            d="M62 40v16M62 68v16M40 62h16M68 62h16"
            stroke={colour}
            strokeWidth={index === 0 ? 4 : 1.5}
          />
        ))}
      </svg>
    </div>
  )
}
