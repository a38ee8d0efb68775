'use client'

import { useState } from 'react'
import { SliderHandle } from '../../_components/slider-handle'

/**
 * The before and the after of one view in one frame, and a line to draw across them: by a finger or the mouse anywhere on
 * the picture, or by the arrow keys.
 */
export function Wipe({
  before,
  after,
  beforeWords,
  afterWords,
  name,
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
  readonly width: number
  readonly height: number
}) {
  const [share, setShare] = useState(50)
  return (
    <div className="card relative overflow-hidden has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-(--press)">
      <img
        src={after}
        alt={afterWords}
        width={width}
        height={height}
        loading="lazy"
        className="bg-well block h-auto w-full"
      />
      <img
        src={before}
        alt={beforeWords}
        width={width}
        height={height}
        loading="lazy"
        className="absolute inset-0 h-full w-full"
        style={{ clipPath: `inset(0 ${100 - share}% 0 0)` }}
      />
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
        aria-label={`How much of the before to show: ${name}`}
        aria-valuetext={`${share} % before, ${100 - share} % after`}
        className="absolute inset-0 h-full w-full cursor-ew-resize touch-pan-y opacity-0"
      />
    </div>
  )
}
