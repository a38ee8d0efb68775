'use client'

import { useEffect, useRef, useState } from 'react'
import { type Homography, composed, scaling } from '#core/geometry/homography'
import { photoSources } from '../../../../../../_components/photo-sources'
import type { HandPhoto } from './hand-alignment.client'

/** How wide the box is at most, which has `max-w-3xl`. */
const shownWidth = '(min-width: 50rem) 48rem, calc(100vw - 2rem)'

/** The after over the before by a map, as it is being changed, and how much of it is seen. */
export function LaidOver({
  before,
  after,
  homography,
}: {
  readonly before: HandPhoto
  readonly after: HandPhoto
  /** From pixels of the whole after to those of the before. */
  readonly homography: Homography
}) {
  const box = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  const [share, setShare] = useState(50)
  useEffect(() => {
    const watched = box.current
    if (watched === null) return
    const watcher = new ResizeObserver(() => {
      setWidth(watched.clientWidth)
    })
    watcher.observe(watched)
    return () => {
      watcher.disconnect()
    }
  }, [])
  const height = (width * after.height) / after.width
  // The after is drawn as wide as the box, and from there to where it belongs.
  const map = composed(
    scaling(width / before.width),
    composed(homography, scaling(after.width / Math.max(1, width))),
  )
  return (
    <figure className="max-w-3xl">
      <figcaption className="mb-2 font-semibold">
        Laid on each other like this
      </figcaption>
      <div ref={box} className="card bg-well relative overflow-hidden">
        <img
          {...photoSources(before)}
          sizes={shownWidth}
          loading="lazy"
          alt=""
          width={before.width}
          height={before.height}
          className="block h-auto w-full"
        />
        <div
          className="absolute inset-0"
          style={{ clipPath: `inset(0 0 0 ${share}%)` }}
        >
          {width > 0 && (
            <img
              {...photoSources(after)}
              sizes={shownWidth}
              loading="lazy"
              alt=""
              className="absolute top-0 left-0 max-w-none origin-top-left"
              style={{
                width,
                height,
                transform: `matrix3d(${cssMatrix(map).join(',')})`,
              }}
            />
          )}
        </div>
      </div>
      <label className="mt-2 flex flex-col gap-1">
        <span>Where the before ends and the after begins</span>
        <input
          type="range"
          min={0}
          max={100}
          value={share}
          aria-valuetext={`${share} % before, ${100 - share} % after`}
          className="h-12 w-full accent-(--press)"
          onChange={(event) => {
            setShare(Number(event.currentTarget.value))
          }}
        />
      </label>
    </figure>
  )
}

/** The sixteen numbers of a plane map in CSS, column after column. Source: CSS Transforms Level 2, section 12. */
function cssMatrix([a, b, c, d, e, f, g, h, i]: Homography) {
  return [a, d, 0, g, b, e, 0, h, 0, 0, 1, 0, c, f, 0, i]
}
