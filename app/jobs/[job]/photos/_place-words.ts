import type { Piece } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Place } from '#core/placing/place'
import { isRefit } from '#core/write-ups/english-words'
import { surfacesWords } from '../../../_words'

const ordinals = ['First', 'Second', 'Third', 'Fourth', 'Fifth'] as const

/** What a coat of each kind is called; the others are never counted. */
const coats: Readonly<Partial<Record<StepKind, string>>> = {
  condition: 'coat of conditioner',
  prime: 'coat of primer',
  coat: 'coat of paint',
  stain: 'coat of stain',
  glaze: 'coat of glaze',
  seal: 'clear coat',
  wax: 'coat of wax',
  hardware: 'coat',
}

const work: Readonly<Record<StepKind, string>> = {
  clean: 'Cleaning',
  repair: 'Repair',
  strip: 'Stripping',
  sand: 'Sanding',
  scuff: 'Scuffing',
  condition: 'Conditioner',
  prime: 'Primer',
  coat: 'Paint',
  stain: 'Stain',
  glaze: 'Glaze',
  seal: 'Clear coat',
  wax: 'Wax',
  hardware: 'Hardware off or on',
  liner: 'Lining',
  detail: 'Detail work',
  assemble: 'Assembly',
}

/** What photos may show, in plain words: `Second coat of primer on body and doors`, `Sanding, top`. */
export function placeWords(
  place: Place,
  pieces: readonly Pick<Piece, 'name' | 'surfaces'>[],
): string {
  if (place.as === 'before') return 'Before the work'
  if (place.as === 'after') return 'After the work'
  const surfaces = surfacesWords(pieces, place.surfaceIds)
  const { kind, coat } = place
  if (coat === undefined) {
    const names = pieces.flatMap((piece) =>
      piece.surfaces.flatMap(({ id, name }) =>
        place.surfaceIds.includes(id) ? [name] : [],
      ),
    )
    return `${isRefit(kind, names) ? 'Refitting' : work[kind]}, ${surfaces}`
  }
  const ordinal = ordinals[coat - 1]
  const what = coats[kind] ?? work[kind].toLowerCase()
  return ordinal === undefined
    ? `Coat ${coat}, ${work[kind].toLowerCase()}, on ${surfaces}`
    : `${ordinal} ${what} on ${surfaces}`
}

/** Less sure than this, a proposal is shown and not taken unless its owner chooses it. */
export const sureEnough = 0.5
const likely = 0.75

/** How sure a proposal is, in a word. */
export function sureWords(confidence: number): string {
  if (confidence >= likely) return 'Likely'
  return confidence >= sureEnough ? 'Perhaps' : 'Only a guess'
}
