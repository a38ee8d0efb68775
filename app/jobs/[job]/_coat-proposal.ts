import type { StepChoices } from './_components/step-fields.client'

/**
 * What an empty coat number comes to, in the words of its field, and the number where it is one for all surfaces.
 *
 * A step that is changed keeps its numbers, since later coats count on them. Where the coats before it give another one,
 * that is said too: a number that was mistyped is not put right by emptying the field.
 */
export function coatProposal(
  { nextCoats, kept }: Pick<StepChoices, 'nextCoats' | 'kept'>,
  kind: string,
  surfaces: readonly string[],
): { readonly hint: string; readonly number: string } {
  const numbers = surfaces.map((id) => nextCoats[kind]?.[id] ?? 1)
  const number = sameIn(numbers)
  const had = surfaces.flatMap((id) =>
    kept?.kind === kind ? (kept.counted[id] ?? []) : [],
  )
  if (had.length > 0) {
    const all = had.length === surfaces.length
    if (number === undefined) {
      return {
        hint: all
          ? 'Left empty, each surface keeps its number.'
          : 'Left empty, each surface keeps its number, and one that is added gets its next one.',
        number: '',
      }
    }
    const counted = all ? sameIn(had) : undefined
    const stays = `Left empty, it stays coat ${number}.`
    return {
      hint:
        counted === undefined || counted === number
          ? stays
          : `${stays} Counted anew, it would be coat ${counted}: type ${counted} for that.`,
      number: String(number),
    }
  }
  if (surfaces.length === 0)
    return { hint: 'Left empty, it is the next one.', number: '' }
  return number === undefined
    ? { hint: 'Left empty, each surface gets its next one.', number: '' }
    : { hint: `Left empty, it is coat ${number}.`, number: String(number) }
}

function sameIn(numbers: readonly number[]): number | undefined {
  return new Set(numbers).size === 1 ? numbers[0] : undefined
}
