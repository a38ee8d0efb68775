import 'server-only'
import type { z } from 'zod'
import { type Result, ok } from '#core/result'
import { typePhotoTime } from '#services/cameras/photo-times'
import { placePhotos } from '#services/photos/place-photos'
import type { photoMending } from '#services/photos/schema'

/**
 * Mends what is said of one photo: what it shows, then when it was taken. Each is a change of its own that can be undone.
 *
 * @returns refused when the job has no such photo, or no such step or surface; then its time is left alone too
 */
export async function mendPhoto(
  jobId: string,
  photoId: string,
  { taken, ...placing }: z.output<typeof photoMending>,
): Promise<Result<undefined>> {
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
