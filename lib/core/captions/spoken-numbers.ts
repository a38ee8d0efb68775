/** A number that begins at a word, and how many words it takes. */
export type SpokenNumber = { readonly value: number; readonly words: number }

const units: Readonly<Record<string, number>> = {
  zero: 0,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  nineteen: 19,
}
const tens: Readonly<Record<string, number>> = {
  twenty: 20,
  thirty: 30,
  forty: 40,
  fourty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
}

/**
 * The number that begins at a word, written or spoken: `220`, `p220`, `2.5`, `twenty five`, `a hundred and eighty`,
 * `one hundred twenty`, and as grits are said, `two twenty`, `one fifty`.
 *
 * @param words lower case
 * @returns undefined where no number begins
 */
export function numberAt(
  words: readonly string[],
  index: number,
): SpokenNumber | undefined {
  const word = words[index] ?? ''
  const written = /^p?(\d+(?:\.\d+)?)s?$/.exec(word)?.[1]
  if (written !== undefined) return { value: Number(written), words: 1 }
  const next = words[index + 1] ?? ''
  const small = units[word] ?? (word === 'a' ? 1 : undefined)
  if (small !== undefined && next === 'hundred') {
    const rest = belowHundred(
      words,
      words[index + 2] === 'and' ? index + 3 : index + 2,
    )
    const and = words[index + 2] === 'and' && rest !== undefined ? 1 : 0
    return {
      value: small * 100 + (rest?.value ?? 0),
      words: 2 + and + (rest?.words ?? 0),
    }
  }
  if (word === 'a') return undefined
  const first = belowHundred(words, index)
  if (first === undefined) return undefined
  const second = belowHundred(words, index + first.words)
  const isGrit =
    first.words === 1 &&
    first.value >= 1 &&
    first.value <= 9 &&
    second !== undefined &&
    second.value >= 10 &&
    second.value % 10 === 0
  return isGrit
    ? { value: first.value * 100 + second.value, words: 1 + second.words }
    : first
}

function belowHundred(
  words: readonly string[],
  index: number,
): SpokenNumber | undefined {
  const word = words[index] ?? ''
  const ten = tens[word]
  if (ten === undefined) {
    const value = units[word]
    return value === undefined ? undefined : { value, words: 1 }
  }
  const unit = units[words[index + 1] ?? '']
  return unit !== undefined && unit >= 1 && unit <= 9
    ? { value: ten + unit, words: 2 }
    : { value: ten, words: 1 }
}
