'use client'

import {
  type KeyboardEvent,
  type MouseEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useRef,
  useState,
} from 'react'
import type { Point } from '#core/geometry/homography'
import {
  type SharedZoom,
  closest,
  movedBy,
  wholePicture,
  zoomTransform,
  zoomedAt,
} from '#core/pairs/shared-zoom'
import { SliderHandle } from '../../_components/slider-handle'
import { readLight } from './read-light.client'

/** How much closer one press of a button or key comes, and how far one goes across. */
const oneStep = 1.5
const oneMove = 0.1
/** Of the wheel: pixels for one step closer. */
const wheelPixels = 240
/** So far from the line, in pixels, a finger has hold of it while the pictures are enlarged; farther off it moves them. */
const reach = 36

const middle = { x: 0.5, y: 0.5 }

const arrows: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: oneMove, y: 0 },
  ArrowRight: { x: -oneMove, y: 0 },
  ArrowUp: { x: 0, y: oneMove },
  ArrowDown: { x: 0, y: -oneMove },
}

/**
 * The before and the after of one view in one frame, with a line to draw across them by a finger, the mouse or the arrow
 * keys. Both are enlarged together: by two fingers, the wheel, keys or buttons.
 */
export function Wipe({
  before,
  after,
  beforeWords,
  afterWords,
  name,
  light,
  width,
  height,
}: {
  readonly before: string
  readonly after: string
  /** What each shows, for those who do not see it. */
  readonly beforeWords: string
  readonly afterWords: string
  /** What is wiped, such as front. */
  readonly name: string
  /** Where it is told how the light of the after would be matched. */
  readonly light: string
  readonly width: number
  readonly height: number
}) {
  const [isMatched, setMatched] = useState(false)
  const frame = useRef<HTMLDivElement>(null)
  const [share, setShare] = useState(50)
  const [zoom, setZoom] = useState<SharedZoom>(wholePicture)
  const isWhole = zoom.scale === 1
  const fingers = useFingers(frame, zoom, share, setShare, setZoom)
  useWheel(frame, isWhole, setZoom)
  const closer = (factor: number) => {
    setZoom((now) => zoomedAt(now, factor, middle))
  }
  const transform = { transform: zoomTransform(zoom) }
  return (
    <div role="group" aria-label={`Before and after: ${name}`}>
      <div
        ref={frame}
        className={`card relative cursor-ew-resize overflow-hidden select-none has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-(--press) ${isWhole ? 'touch-pan-y' : 'touch-none'}`}
        {...fingers}
      >
        <img
          src={isMatched ? `${after}?light=matched` : after}
          alt={afterWords}
          width={width}
          height={height}
          loading="lazy"
          draggable={false}
          className="bg-well block h-auto w-full origin-top-left"
          style={transform}
        />
        <div
          className="absolute inset-0"
          style={{ clipPath: `inset(0 ${100 - share}% 0 0)` }}
        >
          <img
            src={before}
            alt={beforeWords}
            width={width}
            height={height}
            loading="lazy"
            draggable={false}
            className="h-full w-full origin-top-left"
            style={transform}
          />
        </div>
        <span className="bg-paper text-ink text-small absolute top-0 left-0 px-2 py-1 font-semibold">
          Before
        </span>
        <span className="bg-paper text-ink text-small absolute top-0 right-0 px-2 py-1 font-semibold">
          After
        </span>
        <span
          aria-hidden="true"
          className="bg-paper pointer-events-none absolute inset-y-0 w-1 -translate-x-1/2 shadow-[0_0_0_1px_var(--ink)]"
          style={{ left: `${share}%` }}
        >
          <span className="bg-paper border-ink absolute top-1/2 left-1/2 grid size-12 -translate-1/2 place-items-center rounded-full border-2">
            <SliderHandle />
          </span>
        </span>
        <input
          type="range"
          min={0}
          max={100}
          step={1}
          value={share}
          onChange={(event) => {
            setShare(Number(event.currentTarget.value))
          }}
          onKeyDown={(event) => {
            byKey(event, setZoom)
          }}
          aria-label={`How much of the before to show: ${name}`}
          aria-valuetext={`${share} % before, ${100 - share} % after`}
          aria-keyshortcuts="+ - 0 Shift+ArrowLeft Shift+ArrowRight Shift+ArrowUp Shift+ArrowDown"
          className="pointer-events-none absolute inset-0 h-full w-full opacity-0"
        />
      </div>
      <div className="mt-2 flex flex-wrap items-center gap-2">
        <button
          type="button"
          className="button"
          disabled={zoom.scale >= closest}
          onClick={() => {
            closer(oneStep)
          }}
        >
          Closer
          <ForWhat name={name} />
        </button>
        <button
          type="button"
          className="button"
          disabled={isWhole}
          onClick={() => {
            closer(1 / oneStep)
          }}
        >
          Farther
          <ForWhat name={name} />
        </button>
        {!isWhole && (
          <button
            type="button"
            className="button button-quiet"
            onClick={() => {
              setZoom(wholePicture)
            }}
          >
            Whole picture
            <ForWhat name={name} />
          </button>
        )}
        <span role="status" className="text-ink-soft text-small">
          {isWhole ? '' : `Both ${zoom.scale.toFixed(1)} times as large`}
        </span>
      </div>
      <LightSwitch
        address={light}
        name={name}
        isMatched={isMatched}
        onMatch={setMatched}
      />
    </div>
  )
}

/** Shows the after in the light of the before, or says why that cannot be. */
function LightSwitch({
  address,
  name,
  isMatched,
  onMatch,
}: {
  readonly address: string
  readonly name: string
  readonly isMatched: boolean
  readonly onMatch: (isMatched: boolean) => void
}) {
  const [told, setTold] = useState('')
  const change = async (wanted: boolean) => {
    onMatch(wanted)
    if (!wanted) {
      setTold('')
      return
    }
    const light = await readLight(address)
    setTold(light.said)
    if (!light.accepted) onMatch(false)
  }
  return (
    <div className="mt-2">
      <label className="choice">
        <input
          type="checkbox"
          checked={isMatched}
          onChange={(event) => void change(event.currentTarget.checked)}
        />
        <span>
          Match the light to the before
          <ForWhat name={name} />
        </span>
      </label>
      <p role="status" className="text-ink-soft text-small mt-1 empty:hidden">
        {told}
      </p>
    </div>
  )
}

function ForWhat({ name }: { readonly name: string }) {
  return <span className="sr-only">: {name}</span>
}

type SetZoom = (change: (now: SharedZoom) => SharedZoom) => void

function byKey(event: KeyboardEvent, setZoom: SetZoom): void {
  const way = event.shiftKey ? arrows[event.key] : undefined
  const change = way
    ? (now: SharedZoom) => movedBy(now, way)
    : event.key === '+' || event.key === '='
      ? (now: SharedZoom) => zoomedAt(now, oneStep, middle)
      : event.key === '-'
        ? (now: SharedZoom) => zoomedAt(now, 1 / oneStep, middle)
        : event.key === '0'
          ? () => wholePicture
          : undefined
  // With Ctrl these are the browser's own.
  if (change === undefined || event.ctrlKey || event.metaKey) return
  event.preventDefault()
  setZoom(change)
}

/** What the fingers or the mouse do on the frame: one moves the line, or the enlarged pictures; two enlarge. */
function useFingers(
  frame: RefObject<HTMLDivElement | null>,
  zoom: SharedZoom,
  share: number,
  setShare: (share: number) => void,
  setZoom: SetZoom,
) {
  const down = useRef(new Map<number, Point>())
  const does = useRef<'line' | 'pictures' | 'nothing'>('nothing')
  /** Where the line stood before a finger took it. */
  const stood = useRef(share)
  const placeOf = (event: PointerEvent): Point => {
    const box = frame.current?.getBoundingClientRect()
    return box === undefined
      ? middle
      : {
          x: (event.clientX - box.left) / box.width,
          y: (event.clientY - box.top) / box.height,
        }
  }
  const drawTo = ({ x }: Point) => {
    setShare(Math.round(Math.min(1, Math.max(0, x)) * 100))
  }
  const end = (event: PointerEvent) => {
    down.current.delete(event.pointerId)
    if (down.current.size > 0) does.current = 'nothing'
  }
  return {
    // The focus, once it is at the slider, stays there.
    onMouseDown: (event: MouseEvent) => {
      event.preventDefault()
    },
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      if (event.button !== 0) return
      const at = placeOf(event)
      event.currentTarget.setPointerCapture(event.pointerId)
      event.currentTarget.querySelector('input')?.focus({ preventScroll: true })
      down.current.set(event.pointerId, at)
      stood.current = share
      const apart =
        Math.abs(at.x - share / 100) * event.currentTarget.clientWidth
      does.current =
        down.current.size > 1
          ? 'nothing'
          : zoom.scale === 1 || apart < reach
            ? 'line'
            : 'pictures'
    },
    onPointerMove: (event: PointerEvent) => {
      const was = down.current.get(event.pointerId)
      if (was === undefined) return
      const at = placeOf(event)
      const other = [...down.current].find(
        ([id]) => id !== event.pointerId,
      )?.[1]
      down.current.set(event.pointerId, at)
      if (other !== undefined) {
        const factor =
          distance(at, other) / Math.max(0.01, distance(was, other))
        const between = { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 }
        setZoom((now) =>
          movedBy(zoomedAt(now, factor, between), {
            x: (at.x - was.x) / 2,
            y: (at.y - was.y) / 2,
          }),
        )
      } else if (does.current === 'line') {
        drawTo(at)
      } else if (does.current === 'pictures') {
        setZoom((now) => movedBy(now, { x: at.x - was.x, y: at.y - was.y }))
      }
    },
    onPointerUp: (event: PointerEvent) => {
      if (does.current === 'line' && down.current.has(event.pointerId)) {
        drawTo(placeOf(event))
      }
      end(event)
    },
    onPointerCancel: (event: PointerEvent) => {
      // The finger scrolls the page: it did not mean the line that it came upon.
      if (does.current === 'line') setShare(stood.current)
      end(event)
    },
  }
}

function distance(one: Point, other: Point): number {
  return Math.hypot(one.x - other.x, one.y - other.y)
}

/** The wheel enlarges with Ctrl, as two fingers on a pad send it, and without once the frame has the focus: else it scrolls. */
function useWheel(
  frame: RefObject<HTMLDivElement | null>,
  isWhole: boolean,
  setZoom: SetZoom,
): void {
  useEffect(() => {
    const box = frame.current
    if (box === null) return
    const turn = (event: WheelEvent) => {
      const isMeant =
        event.ctrlKey || event.metaKey || box.contains(document.activeElement)
      // There is nothing farther than the whole: then the page goes on.
      const isNothing = isWhole && event.deltaY > 0 && !event.ctrlKey
      if (!isMeant || isNothing) return
      event.preventDefault()
      const { left, top, width, height } = box.getBoundingClientRect()
      const at = {
        x: (event.clientX - left) / width,
        y: (event.clientY - top) / height,
      }
      const pixels = event.deltaMode === 0 ? event.deltaY : event.deltaY * 40
      setZoom((now) => zoomedAt(now, oneStep ** (-pixels / wheelPixels), at))
    }
    // React listens passively, and the page would scroll as well.
    box.addEventListener('wheel', turn, { passive: false })
    return () => {
      box.removeEventListener('wheel', turn)
    }
  }, [frame, isWhole, setZoom])
}
