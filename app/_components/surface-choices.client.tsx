'use client'

import type { Piece } from '#core/journal/journal'

/** The surfaces of the pieces of a job, to be tapped together. */
export function SurfaceChoices({
  pieces,
  namesPieces,
  chosen,
  onChange,
}: {
  readonly pieces: readonly Pick<Piece, 'id' | 'name' | 'surfaces'>[]
  /** Whether each piece stands over its surfaces; readers of screens are told in any case. */
  readonly namesPieces: boolean
  readonly chosen: readonly string[]
  readonly onChange: (surfaces: readonly string[]) => void
}) {
  return pieces.map((piece) => (
    <div key={piece.id} role="group" aria-label={piece.name}>
      {namesPieces && <p className="text-ink-soft mb-1">{piece.name}</p>}
      <div className="flex flex-wrap gap-2">
        {piece.surfaces.map((surface) => (
          <label key={surface.id} className="choice">
            <input
              type="checkbox"
              checked={chosen.includes(surface.id)}
              onChange={(event) => {
                onChange(
                  event.target.checked
                    ? [...chosen, surface.id]
                    : chosen.filter((one) => one !== surface.id),
                )
              }}
            />
            {surface.name}
          </label>
        ))}
      </div>
    </div>
  ))
}
