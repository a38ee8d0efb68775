'use client'

/** What the workshop says about the light of a pair. */
export type ToldLight = { readonly accepted: boolean; readonly said: string }

/** How the light of a pair would be matched, asked of the workshop; what is wrong is said in words too. */
export async function readLight(address: string): Promise<ToldLight> {
  try {
    const answer = await fetch(address)
    const told: unknown = await answer.json()
    if (answer.ok && isTold(told)) return told
    return { accepted: false, said: 'The light of this pair cannot be told.' }
  } catch {
    return {
      accepted: false,
      said: 'The workshop could not be reached. Try again.',
    }
  }
}

function isTold(value: unknown): value is ToldLight {
  return (
    typeof value === 'object' &&
    value !== null &&
    'accepted' in value &&
    typeof value.accepted === 'boolean' &&
    'said' in value &&
    typeof value.said === 'string'
  )
}
