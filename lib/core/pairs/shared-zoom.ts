import type { Point } from '#core/geometry/homography'

/** What of two pictures that lie on each other is seen in their frame. */
export type SharedZoom = {
  /** 1 shows the whole, 2 half of it across and down. */
  readonly scale: number
  /** The upper left corner of what is seen, as shares of the picture. */
  readonly left: number
  readonly top: number
}

export const wholePicture: SharedZoom = { scale: 1, left: 0, top: 0 }

/** More shows no more: the pictures have no finer pixels. */
export const closest = 4

/**
 * Comes closer or goes farther; what is at one place of the frame stays there, as far as there is picture around it.
 *
 * @param factor above 1 comes closer
 * @param at as shares of the frame
 */
export function zoomedAt(
  { scale, left, top }: SharedZoom,
  factor: number,
  at: Point,
): SharedZoom {
  const next = Math.min(closest, Math.max(1, scale * factor))
  return kept({
    scale: next,
    left: left + at.x / scale - at.x / next,
    top: top + at.y / scale - at.y / next,
  })
}

/** Moves the pictures in their frame, as far as there is picture. @param by as shares of the frame */
export function movedBy(
  { scale, left, top }: SharedZoom,
  by: Point,
): SharedZoom {
  return kept({ scale, left: left - by.x / scale, top: top - by.y / scale })
}

/** How a picture as large as its frame is drawn, in CSS, from its upper left corner. */
export function zoomTransform({ scale, left, top }: SharedZoom): string {
  return `translate(${-left * scale * 100}%, ${-top * scale * 100}%) scale(${scale})`
}

function kept({ scale, left, top }: SharedZoom): SharedZoom {
  const most = 1 - 1 / scale
  return {
    scale,
    left: Math.min(most, Math.max(0, left)),
    top: Math.min(most, Math.max(0, top)),
  }
}
