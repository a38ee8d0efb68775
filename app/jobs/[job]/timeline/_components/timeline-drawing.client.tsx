'use client'

import {
  type ReactNode,
  Suspense,
  lazy,
  startTransition,
  useEffect,
  useState,
} from 'react'
import { flushSync } from 'react-dom'
import { clockTicks, clockTimeAt, tickWords } from '#core/timeline/clock-ticks'
import { lengthOfTime } from '#core/time/length-of-time'
import { gatherMarks, withinView } from '#core/timeline/gather-marks'
import type {
  DrawnLane,
  GapBar,
  TimelineDrawing,
} from '#core/timeline/plan-timeline-drawing'
import { VerdictShape, verdictWords } from '../../../../_components/verdict'
import { kindName, stepName } from '../../../../_words'
import { undoChangeAction } from '../actions'
import { PhotoViewer, type ShownPhoto } from './photo-viewer.client'
import { edgePixels, fingerPixels, useZoom } from './use-zoom.client'

const MendStep = lazy(async () => ({
  default: (await import('./mend-step.client')).MendStep,
}))

const MendedBar = lazy(async () => ({
  default: (await import('./mend-step.client')).MendedBar,
}))

const stepPixels = 84
/** Two tick labels are apart so far that they can be read. */
const tickPixels = 96
/** Of a screen that shows sixty a second, in milliseconds. */
const frameLength = 17

/** All lanes of a job with time across. Only what is near the screen is in the page. */
export function TimelineDrawingView({
  job,
  drawing,
  photos,
  ends,
  lastChange,
  units,
}: {
  readonly job: string
  readonly drawing: TimelineDrawing
  /** All photos of the job, in order of their times. */
  readonly photos: readonly ShownPhoto[]
  /** How it looked before, and how it looks now: ids of photos. */
  readonly ends: { readonly before?: string; readonly after?: string }
  /** The id of the change that can be undone. */
  readonly lastChange: string | undefined
  readonly units: 'metric' | 'us'
}) {
  const { scale } = drawing
  const { frame, pixelsPerMinute, view, ...zoom } = useZoom(scale.length)
  const [shown, setShown] = useState<
    { readonly ids: readonly string[]; readonly index: number } | undefined
  >()
  const [mended, setMended] = useState<string | undefined>()
  const [said, setSaid] = useState('')
  /** An empty place that was tapped, for a step that is not written down yet. */
  const [tapped, setTapped] = useState<
    { readonly surface: string; readonly place: number } | undefined
  >()
  /** What could be undone when the panel was opened: only what came of the panel is undone beside the drawing. */
  const [changeBefore, setChangeBefore] = useState<string | undefined>()
  const across = (place: number) => edgePixels + place * pixelsPerMinute
  const wide = across(scale.length) + stepPixels
  return (
    <section
      aria-labelledby="drawing"
      className="print-as-drawn mb-8 print:mb-4"
    >
      <div className="mb-2 flex flex-wrap items-center gap-2">
        <h2 id="drawing" className="text-lead grow font-bold">
          From first to last
        </h2>
        <div className="flex flex-wrap gap-2 print:hidden">
          <button
            type="button"
            className="button"
            aria-label="Closer"
            onClick={() => {
              zoom.by(2)
            }}
          >
            +
          </button>
          <button
            type="button"
            className="button"
            aria-label="Farther"
            onClick={() => {
              zoom.by(0.5)
            }}
          >
            −
          </button>
          <button
            type="button"
            className="button"
            onClick={() => {
              zoom.toWhole()
            }}
          >
            Whole job
          </button>
        </div>
      </div>
      <Ends
        ends={ends}
        onOpen={(id) => {
          const ids = photos.map((photo) => photo.id)
          setShown({ ids, index: ids.indexOf(id) })
        }}
      />
      {/* A list that scrolls must be reached by keys, so it takes the focus. */}
      <div
        ref={frame}
        role="group"
        aria-label="Drawing of the timeline. Arrow keys move along, plus and minus zoom, 0 shows the whole job."
        // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- what scrolls must be reached by keys
        tabIndex={0}
        className="card relative touch-pan-x touch-pan-y overflow-x-auto overflow-y-hidden overscroll-x-contain"
      >
        <div className="relative" style={{ width: wide, minWidth: '100%' }}>
          {view !== undefined && (
            <Ground
              drawing={drawing}
              across={across}
              from={view.from}
              to={view.to}
              leastLength={tickPixels / pixelsPerMinute}
              units={units}
            />
          )}
          <div className="h-12" />
          {drawing.lanes.map((lane, index) => (
            <LaneRow
              key={lane.surfaceId}
              lane={lane}
              isFirstOfPiece={drawing.lanes[index - 1]?.piece !== lane.piece}
            >
              <button
                type="button"
                // A step is started by keys from the top of the page, with its time typed.
                tabIndex={-1}
                aria-hidden="true"
                className="absolute inset-0 cursor-cell print:hidden"
                onClick={(event) => {
                  const { left } = event.currentTarget.getBoundingClientRect()
                  const pixels = event.clientX - left - edgePixels
                  setTapped({
                    surface: lane.surfaceId,
                    place: pixels / pixelsPerMinute,
                  })
                }}
              />
              {view !== undefined && (
                <LaneMarks
                  turn={index}
                  job={job}
                  lane={lane}
                  view={view}
                  pixelsPerMinute={pixelsPerMinute}
                  across={across}
                  onZoomTo={(from, to) => zoom.toPlaces(from, to)}
                  onMend={(id) => {
                    setSaid('')
                    setChangeBefore(lastChange)
                    setMended(id)
                  }}
                  onOpen={(id) => {
                    const ids = lane.photos.map((photo) => photo.id)
                    setShown({ ids, index: ids.indexOf(id) })
                  }}
                />
              )}
              {tapped?.surface === lane.surfaceId && (
                <StepHere
                  job={job}
                  surface={tapped.surface}
                  drawing={drawing}
                  place={tapped.place}
                  across={across}
                  units={units}
                />
              )}
            </LaneRow>
          ))}
        </div>
      </div>
      <p role="status" className="sr-only">
        {said}
      </p>
      {said !== '' && (
        <Suspense>
          <MendedBar
            said={said}
            undo={
              lastChange === undefined || lastChange === changeBefore
                ? undefined
                : async () => {
                    const state = await undoChangeAction(job, lastChange)
                    if (state.outcome === 'saved') setSaid(state.message ?? '')
                    return state
                  }
            }
            onClose={() => {
              setSaid('')
            }}
          />
        </Suspense>
      )}
      <Legend />
      {mended !== undefined && (
        <Suspense>
          <MendStep
            job={job}
            step={mended}
            onClose={(words) => {
              setMended(undefined)
              setSaid(words ?? '')
            }}
          />
        </Suspense>
      )}
      {shown !== undefined && (
        <PhotoViewer
          job={job}
          photos={shown.ids.flatMap(
            (id) => photos.find((photo) => photo.id === id) ?? [],
          )}
          first={shown.index}
          onClose={() => {
            setShown(undefined)
          }}
        />
      )}
    </section>
  )
}

function Ground({
  drawing,
  across,
  from,
  to,
  leastLength,
  units,
}: {
  readonly drawing: TimelineDrawing
  readonly across: (place: number) => number
  readonly from: number
  readonly to: number
  readonly leastLength: number
  readonly units: 'metric' | 'us'
}) {
  const { scale, days } = drawing
  const folds = scale.stretches
    .filter(({ isFolded }) => isFolded)
    .map((fold) => ({ ...fold, at: fold.place, end: fold.place + fold.length }))
    .filter(({ at, end }) => end >= from && at <= to)
  return (
    <div aria-hidden="true" className="absolute inset-0">
      {withinView(drawing.nights, from, to).map((night) => (
        <div
          key={night.from}
          className="bg-well absolute inset-y-0"
          style={{
            left: across(night.from),
            width: across(night.to) - across(night.from),
          }}
        />
      ))}
      {folds.map((fold) => (
        <div
          key={fold.place}
          className="timeline-fold border-line-strong absolute inset-y-0 overflow-hidden border-x-2 border-dashed"
          style={{
            left: across(fold.at),
            width: across(fold.end) - across(fold.at),
          }}
        >
          <span className="bg-paper text-small absolute top-20 left-1/2 -translate-x-1/2 px-1 whitespace-nowrap [writing-mode:vertical-rl]">
            {lengthOfTime((fold.to - fold.from) / 60_000)} folded
          </span>
        </div>
      ))}
      {clockTicks(
        scale,
        days,
        Math.max(0, from),
        Math.min(scale.length, to),
        leastLength,
      ).map((tick) => (
        <div
          key={tick.at}
          className={`absolute inset-y-0 border-l ${tick.minuteOfDay === 0 ? 'border-line-strong' : 'border-line'}`}
          style={{ left: across(tick.place) }}
        >
          <span
            className={`text-small block px-1 pt-2 whitespace-nowrap ${tick.minuteOfDay === 0 ? 'font-bold' : 'text-ink-soft'}`}
          >
            {tick.minuteOfDay === 0
              ? tick.day.words
              : tickWords(tick.minuteOfDay, units)}
          </span>
        </div>
      ))}
      {drawing.changes.map(({ place, byMinutes }) => (
        <div
          key={place}
          className="border-doubt absolute inset-y-0 border-l-2 border-dashed"
          style={{ left: across(place) }}
        >
          <span className="text-doubt text-small bg-paper absolute bottom-1 px-1 whitespace-nowrap">
            clocks {byMinutes < 0 ? 'back' : 'on'}{' '}
            {lengthOfTime(Math.abs(byMinutes))}
          </span>
        </div>
      ))}
      {drawing.now !== undefined && (
        <div
          className="border-press absolute inset-y-0 border-l-4 border-double"
          style={{ left: across(drawing.now) }}
        >
          <span className="text-press text-small block px-1 pt-7 font-bold">
            now
          </span>
        </div>
      )}
    </div>
  )
}

function LaneRow({
  lane,
  isFirstOfPiece,
  children,
}: {
  readonly lane: DrawnLane
  readonly isFirstOfPiece: boolean
  readonly children: ReactNode
}) {
  return (
    <div
      role="group"
      aria-label={`${lane.piece} ${lane.surface}, drawn`}
      className={`relative h-44 break-inside-avoid print:h-[10.5rem] ${isFirstOfPiece ? 'border-line-strong border-t-2' : 'border-line border-t'}`}
    >
      <p className="bg-paper sticky left-0 z-10 inline-block rounded-br-md px-2 py-0.5 font-bold">
        {isFirstOfPiece && (
          <span className="text-ink-soft font-normal">{lane.piece}, </span>
        )}
        {lane.surface}
      </p>
      {children}
    </div>
  )
}

function LaneMarks({
  turn,
  job,
  lane,
  view,
  pixelsPerMinute,
  across,
  onZoomTo,
  onMend,
  onOpen,
}: {
  readonly turn: number
  readonly job: string
  readonly lane: DrawnLane
  readonly view: { readonly from: number; readonly to: number }
  readonly pixelsPerMinute: number
  readonly across: (place: number) => number
  readonly onZoomTo: (from: number, to: number) => boolean
  readonly onMend: (stepId: string) => void
  readonly onOpen: (photoId: string) => void
}) {
  const hasTurn = useTurn(turn)
  if (!hasTurn) return null
  const stepLength = stepPixels / pixelsPerMinute
  const photoLength = (fingerPixels + 4) / pixelsPerMinute
  const from = view.from - stepLength
  return (
    // One element, so that all of it comes into the page at once.
    <div className="contents">
      {withinView(lane.gaps, from, view.to)
        .toSorted((one, other) => other.to - other.from - (one.to - one.from))
        .map((gap) => (
          <WaitBar
            key={`${gap.earlierId} ${gap.laterId}`}
            surface={lane.surfaceId}
            gap={gap}
            left={across(gap.from)}
            width={(gap.to - gap.from) * pixelsPerMinute}
            dryAt={gap.dryAt === undefined ? undefined : across(gap.dryAt)}
          />
        ))}
      {lane.drying !== undefined && (
        <div
          className="border-line-strong from-well to-ink-soft absolute top-[8.75rem] h-5 rounded-sm border border-dashed bg-linear-to-r"
          style={{
            left: across(lane.drying.from),
            width: (lane.drying.to - lane.drying.from) * pixelsPerMinute,
          }}
        >
          <span className="sr-only">drying</span>
        </div>
      )}
      {withinView(gatherMarks(lane.photos, photoLength), from, view.to).map(
        ({ marks, from: place }) => {
          const [first] = marks
          return first === undefined ? null : (
            <button
              key={first.id}
              type="button"
              aria-label={
                marks.length === 1
                  ? 'Open the photo'
                  : `Open ${marks.length} photos`
              }
              className="bg-well absolute top-8 size-11 overflow-hidden rounded-md print:has-[img[data-missing]]:hidden"
              style={{ left: across(place) }}
              onClick={() => {
                onOpen(first.id)
              }}
            >
              <img
                src={`/api/photos/${first.id}/thumb`}
                alt=""
                width={44}
                height={44}
                decoding="async"
                className="size-11 object-cover"
              />
              {marks.length > 1 && (
                <span className="bg-paper text-small absolute right-0 bottom-0 rounded-tl-md px-1 font-bold">
                  {marks.length}
                </span>
              )}
            </button>
          )
        },
      )}
      {withinView(gatherMarks(lane.steps, stepLength), from, view.to).map(
        ({ marks, from: place, to }) => {
          const [first] = marks
          if (first === undefined) return null
          const look =
            'absolute top-[5.25rem] flex h-11 items-center justify-center rounded-md border-2 px-1 text-center text-small leading-tight'
          const left = across(place)
          return marks.length === 1 ? (
            <a
              key={first.id}
              href={`/jobs/${job}/steps/${first.id}`}
              // It opens its panel over the drawing: no page is on its way.
              data-stays
              // In full: three lines of it do not fit the mark.
              aria-label={stepName(first.kind, first.coat)}
              onClick={(event) => {
                if (event.ctrlKey || event.metaKey || event.shiftKey) return
                event.preventDefault()
                onMend(first.id)
              }}
              className={`${look} ${first.coat === undefined ? 'border-line-strong bg-paper' : 'border-press bg-press text-press-ink font-bold'}`}
              style={{
                left,
                width: Math.max(stepPixels - 4, (to - place) * pixelsPerMinute),
              }}
            >
              {first.coat === undefined
                ? kindName(first.kind)
                : `${kindName(first.kind)} ${first.coat}`}
            </a>
          ) : (
            <button
              key={first.id}
              type="button"
              className={`${look} border-press bg-press-soft border-double`}
              style={{ left, width: stepPixels - 4 }}
              onClick={() => {
                if (!onZoomTo(place, marks.at(-1)?.from ?? to)) onMend(first.id)
              }}
            >
              {marks.length} steps
            </button>
          )
        },
      )}
    </div>
  )
}

/** Whether it is one's turn to be drawn. All lanes at once would be a piece of work for which a finger has to wait. */
function useTurn(turn: number): boolean {
  const [hasCome, setHasCome] = useState(false)
  useEffect(() => {
    const come = () => {
      setHasCome(true)
    }
    const timer = setTimeout(() => {
      startTransition(come)
    }, turn * frameLength)
    // Paper is drawn in one go.
    const print = () => {
      flushSync(come)
    }
    window.addEventListener('beforeprint', print, { capture: true, once: true })
    return () => {
      clearTimeout(timer)
      window.removeEventListener('beforeprint', print, { capture: true })
    }
  }, [turn])
  return hasCome
}

/** A way to write down a step that was done at a place which was tapped. */
function StepHere({
  job,
  surface,
  drawing: { scale, days, now },
  place,
  across,
  units,
}: {
  readonly job: string
  readonly surface: string
  readonly drawing: TimelineDrawing
  readonly place: number
  readonly across: (place: number) => number
  readonly units: 'metric' | 'us'
}) {
  const time = clockTimeAt(scale, days, place)
  // What is still to come is not written down.
  if (time === undefined || (now !== undefined && time.place > now)) return null
  const left = across(time.place)
  const asked = new URLSearchParams({
    surface,
    at: new Date(time.at).toISOString(),
  })
  return (
    <>
      <span
        className="border-press absolute inset-y-0 border-l-2"
        style={{ left }}
      />
      <a
        href={`/jobs/${job}/steps/new?${asked.toString()}`}
        // Tapped at the edge of what is in sight, it comes into sight whole.
        ref={intoSight}
        aria-label={`Add a step, ${time.day.words} ${tickWords(time.minuteOfDay, units)}`}
        className="button text-small absolute top-8 z-20 -translate-x-1/2 scroll-mx-2 text-center leading-tight whitespace-nowrap"
        style={{
          left: `clamp(5.5rem, ${String(Math.round(left))}px, 100% - 5.5rem)`,
        }}
      >
        <span>
          Add a step
          <span className="block font-normal">
            {time.day.words} {tickWords(time.minuteOfDay, units)}
          </span>
        </span>
      </a>
    </>
  )
}

function intoSight(link: HTMLAnchorElement | null) {
  link?.scrollIntoView({ inline: 'nearest', block: 'nearest' })
}

const barLooks = {
  'too-soon': 'border-wet timeline-too-soon',
  'in-window': 'border-sound',
  'past-window': 'border-late border-dotted',
  unsure: 'border-doubt border-dashed',
  'no-label': 'border-line-strong border-dashed',
} as const

/** A wait: pale while the coat is wet, full from where it was dry enough. */
function WaitBar({
  surface,
  gap,
  left,
  width,
  dryAt,
}: {
  readonly surface: string
  readonly gap: GapBar
  readonly left: number
  readonly width: number
  readonly dryAt: number | undefined
}) {
  const dryPixels = Math.max(0, (dryAt ?? left + width) - left)
  const bar = (
    <span
      className={`block h-5 w-full overflow-hidden rounded-sm border-2 ${barLooks[gap.verdict]}`}
      style={{
        backgroundColor: 'var(--paper)',
        ...(gap.verdict !== 'too-soon' && {
          backgroundImage: `linear-gradient(to right, var(--well), var(--line-strong) ${dryPixels.toFixed(0)}px)`,
        }),
      }}
    />
  )
  const place = { left, width: Math.max(3, width) }
  if (width < fingerPixels) {
    return (
      <span className="absolute top-[8.75rem]" style={place}>
        {bar}
      </span>
    )
  }
  return (
    <a
      href={`#check-${surface}-${gap.earlierId}-${gap.laterId}`}
      aria-label={`${verdictWords(gap.verdict)}: the wait in words`}
      className="absolute top-[8rem] flex h-11 items-center"
      style={place}
    >
      {bar}
      <span className="bg-paper border-line-strong absolute left-1/2 -translate-x-1/2 rounded-full border p-0.5">
        <VerdictShape verdict={gap.verdict} />
      </span>
    </a>
  )
}

function Legend() {
  return (
    <p className="text-ink-soft text-small mt-2">
      Bands are nights, from ten to six. A bar is a wait: pale while the coat
      was drying.{' '}
      <span className="print:hidden">
        <span className="pointer-fine:hidden">Pinch to come closer;</span>{' '}
        <span className="pointer-coarse:hidden">
          Hold Ctrl and turn the wheel to come closer;
        </span>{' '}
        tap a step to mend it, a wait to read why, an empty place to add a step
        there.
      </span>
    </p>
  )
}

/** The piece as it was and as it is, at the two ends of its story. */
function Ends({
  ends: { before, after },
  onOpen,
}: {
  readonly ends: { readonly before?: string; readonly after?: string }
  readonly onOpen: (photoId: string) => void
}) {
  if (before === undefined && after === undefined) return null
  return (
    <div className="mb-3 flex justify-between gap-3">
      {[
        { id: before, name: 'Before' },
        { id: after, name: 'After' },
      ].map(({ id, name }) =>
        id === undefined ? (
          <span key={name} />
        ) : (
          <button
            key={name}
            type="button"
            className="card overflow-hidden"
            onClick={() => {
              onOpen(id)
            }}
          >
            <img
              src={`/api/photos/${id}/thumb`}
              fetchPriority="high"
              alt=""
              width={144}
              height={108}
              className="bg-well h-27 w-36 object-cover print:h-21 print:w-28"
            />
            <span className="block py-1 font-bold">{name}</span>
          </button>
        ),
      )}
    </div>
  )
}
