import { newPlacing } from '#services/placing/schema'

/** What a form of bursts says: those with a place; undefined when all were left for later or something was tampered with. */
export function readPlacingForm(form: FormData) {
  const choices = form.getAll('burst').flatMap((burst) => {
    if (typeof burst !== 'string') return []
    const place = form.get(`place ${burst}`)
    const photos = form.get(`photos ${burst}`)
    if (typeof place !== 'string' || typeof photos !== 'string') return []
    return place === ''
      ? []
      : { photos: photos.split(' '), place: asJson(place) }
  })
  const placing = newPlacing.safeParse({ choices })
  return placing.success ? placing.data : undefined
}

function asJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    // No form of ours sends that; the schema refuses it.
    return undefined
  }
}
