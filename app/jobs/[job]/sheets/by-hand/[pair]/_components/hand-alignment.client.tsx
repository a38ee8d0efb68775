'use client'

import { useState, useTransition } from 'react'
import type { Point } from '#core/geometry/homography'
import {
  type HandPoints,
  handDoubtSentence,
  mapByHand,
} from '#core/pairs/hand-points'
import { LaidOver } from './laid-over.client'
import { PointedPhoto } from './pointed-photo.client'

/** A photo of the pair, with its upright size in pixels. */
export type HandPhoto = {
  readonly id: string
  readonly width: number
  readonly height: number
}

type Side = keyof HandPoints

const sides = [
  { side: 'before', name: 'Before' },
  { side: 'after', name: 'After' },
] as const

/** Four points on each of two photos, and how the one then lies over the other. */
export function HandAlignment({
  before,
  after,
  start,
  keep,
}: {
  readonly before: HandPhoto
  readonly after: HandPhoto
  readonly start: HandPoints
  /** Keeps the points; gives what is wrong with them, or goes on to another page. */
  readonly keep: (points: HandPoints) => Promise<string>
}) {
  const [points, setPoints] = useState(start)
  // What it was before each move, the last one at the end.
  const [past, setPast] = useState<readonly HandPoints[]>([])
  const [chosen, setChosen] = useState(0)
  const [told, setTold] = useState('')
  const [busy, begin] = useTransition()
  const laid = mapByHand(points, before, after)
  const photos = { before, after }

  const move = (side: Side, index: number, to: Point) => {
    setTold('')
    setPoints((now) => ({ ...now, [side]: now[side].with(index, to) }))
  }
  const remember = () => {
    setPast((moves) => [...moves, points])
  }
  const save = () => {
    begin(async () => {
      setTold('')
      try {
        setTold(await keep(points))
      } catch {
        setTold('The workshop could not be reached. Try again.')
      }
    })
  }
  return (
    <>
      <div className="grid items-start gap-5 md:grid-cols-2">
        {sides.map(({ side, name }) => (
          <PointedPhoto
            key={side}
            photo={photos[side]}
            name={name}
            points={points[side]}
            chosen={chosen}
            onChoose={setChosen}
            onStart={remember}
            onMove={(index, to) => {
              move(side, index, to)
            }}
          />
        ))}
      </div>
      <p role="alert" className="text-wet font-bold empty:hidden">
        {told !== ''
          ? told
          : 'doubt' in laid
            ? handDoubtSentence(laid.doubt)
            : ''}
      </p>
      <div className="flex flex-wrap gap-3">
        <button
          type="button"
          className="button button-main"
          disabled={busy || 'doubt' in laid}
          onClick={save}
        >
          {busy ? 'Keeping …' : 'Keep this alignment'}
        </button>
        <button
          type="button"
          className="button"
          disabled={past.length === 0}
          onClick={() => {
            const last = past.at(-1)
            if (last === undefined) return
            setPoints(last)
            setPast(past.slice(0, -1))
          }}
        >
          Undo
        </button>
        <button
          type="button"
          className="button"
          disabled={past.length === 0}
          onClick={() => {
            remember()
            setPoints(start)
          }}
        >
          All points as they were
        </button>
      </div>
      {'homography' in laid && (
        <LaidOver before={before} after={after} homography={laid.homography} />
      )}
    </>
  )
}
