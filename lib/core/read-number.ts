/** Half of the world would read it as thousands, the other half as a fraction. */
const readTwoWays = /^\d{1,3}[.,]\d{3}$/
const commaThousands = /^\d{1,3}(?:,\d{3})+\.\d+$|^\d{1,3}(?:,\d{3}){2,}$/
const pointThousands = /^\d{1,3}(?:\.\d{3})+,\d+$|^\d{1,3}(?:\.\d{3}){2,}$/
const spaceThousands = /^\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?:[.,]\d+)?$/
const plain = /^[-+\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)$/
const mixed = /^(?:(\d+)[ \u00a0-]+)?(\d+)\s*[/\u2044]\s*(\d+)$/

const vulgarFractions: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
}

/**
 * The number that somebody typed, as people type numbers at a bench: `33.5`, `33,5`, `33 3/4`, `33¾`, `$485`, `1,250.50`,
 * `82 %`, `30"`. NaN when it is no number, or one that can be read two ways, as 1,250 can.
 */
export function readNumber(text: string): number {
  const bare = text
    .trim()
    .replace(/^\p{Sc}\s*/u, '')
    .replace(/\s*(?:%|"|″|''|\p{Sc})$/u, '')
    .replaceAll(/[½¼¾⅛⅜⅝⅞⅓⅔]/gu, (sign) => ` ${vulgarFractions[sign] ?? ''}`)
    .trim()
  const fraction = mixed.exec(bare)
  if (fraction !== null) {
    const [, whole = '0', over, under] = fraction
    return Number(under) === 0
      ? NaN
      : Number(whole) + Number(over) / Number(under)
  }
  if (spaceThousands.test(bare)) return readNumber(bare.replaceAll(/\s/gu, ''))
  if (commaThousands.test(bare)) return Number(bare.replaceAll(',', ''))
  if (pointThousands.test(bare)) {
    return Number(bare.replaceAll('.', '').replace(',', '.'))
  }
  if (readTwoWays.test(bare) && bare.includes(',')) return NaN
  return plain.test(bare)
    ? Number(bare.replace(',', '.').replace('\u2212', '-'))
    : NaN
}
