import type { Result } from '#core/result'
import { type Instant, instant } from '#core/units'
import { type KeptUpload, keepPhotos } from '#services/intake/keep-photos'
import {
  type ReceivedUpload,
  type UploadLimits,
  receiveUpload,
} from '#services/intake/receive-upload'

/** The moment at which the tests' photos arrive. */
export const arrival: Instant = instant(Date.parse('2026-11-01T12:00:00Z'))

export type SentPhoto = readonly [name: string, bytes: Uint8Array]

/** A form as a browser sends it: fields first, then the files. */
export function photoForm(
  photos: readonly SentPhoto[],
  fields: readonly (readonly [string, string])[] = [],
): FormData {
  const form = new FormData()
  for (const [name, value] of fields) form.append(name, value)
  for (const [name, bytes] of photos) {
    form.append('file', new Blob([new Uint8Array(bytes)]), name)
  }
  return form
}

/** Receives a form as the interface does. */
export async function receive(
  form: FormData,
  limits?: UploadLimits,
): Promise<Result<ReceivedUpload>> {
  const request = new Request('http://localhost/', {
    method: 'POST',
    body: form,
  })
  return receiveUpload(
    request.headers.get('content-type') ?? '',
    request.body,
    limits,
  )
}

/** Sends photos to a job and keeps them, as the interface does. */
export async function sendPhotos(
  jobId: string,
  photos: readonly SentPhoto[],
  fields: readonly (readonly [string, string])[] = [],
  now: Instant = arrival,
): Promise<KeptUpload> {
  const upload = await receive(photoForm(photos, fields))
  if (!upload.ok) throw new Error(upload.refusal.detail)
  const kept = await keepPhotos(jobId, upload.value, now)
  if (!kept.ok) throw new Error(kept.refusal.detail)
  return kept.value
}
