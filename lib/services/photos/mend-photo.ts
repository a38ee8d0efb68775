import 'server-only'
import type { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import { whyNotThen } from '#core/time/when-it-was'
import { typePhotoTime } from '#services/cameras/photo-times'
import { now } from '#services/clock'
import { placePhotos } from '#services/photos/place-photos'
import type { photoMending } from '#services/photos/schema'

/**
 * Mends what is said of one photo: what it shows, then when it was taken. Each is a change of its own that can be undone.
 *
 * @returns refused when the job has no such photo, or no such step or surface, or when it cannot have been
 *   taken then; nothing is mended then
 */
export async function mendPhoto(
  jobId: string,
  photoId: string,
  { taken, ...placing }: z.output<typeof photoMending>,
): Promise<Result<undefined>> {
  // Before anything is written: what is refused leaves no part of itself behind.
  const reason = taken ? whyNotThen(taken.at, now()) : undefined
  if (reason !== undefined) return refused({ kind: 'invalid', detail: reason })
  const placed = await placePhotos(jobId, { ...placing, photos: [photoId] })
  if (!placed.ok || taken === undefined) return placed
  const typed = await typePhotoTime(
    photoId,
    taken === null
      ? null
      : {
          at: taken.at,
          ...(taken.uncertaintySeconds !== undefined && {
            uncertaintySeconds: taken.uncertaintySeconds,
          }),
        },
  )
  return typed.ok ? ok(undefined) : typed
}
