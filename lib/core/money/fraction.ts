/** An exact number: `numerator / denominator`, the denominator above zero, in lowest terms. */
export type Fraction = {
  readonly numerator: bigint
  readonly denominator: bigint
}

function lowest(numerator: bigint, denominator: bigint): Fraction {
  const sign = denominator < 0n ? -1n : 1n
  let [a, b] = [numerator < 0n ? -numerator : numerator, sign * denominator]
  while (b !== 0n) [a, b] = [b, a % b]
  const divisor = a === 0n ? 1n : a
  return {
    numerator: (sign * numerator) / divisor,
    denominator: (sign * denominator) / divisor,
  }
}

/**
 * The exact value of a number as it is written in decimal: 0.1 is one tenth, not the binary number near it.
 *
 * @throws RangeError when not finite
 */
export function fractionOf(value: number): Fraction {
  const written = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value))
  if (!written) {
    throw new RangeError(`fractionOf: expected a finite number, got ${value}`)
  }
  const [, sign = '', whole = '', decimals = '', exponent = '0'] = written
  const digits = BigInt(`${sign}${whole}${decimals}`)
  const power = Number(exponent) - decimals.length
  return power >= 0
    ? lowest(digits * 10n ** BigInt(power), 1n)
    : lowest(digits, 10n ** BigInt(-power))
}

/** The sum; of none, zero. */
export function sumOf(terms: readonly Fraction[]): Fraction {
  return terms.reduce(
    (sum, term) =>
      lowest(
        sum.numerator * term.denominator + term.numerator * sum.denominator,
        sum.denominator * term.denominator,
      ),
    { numerator: 0n, denominator: 1n },
  )
}

/** The product of two. */
export function times(left: Fraction, right: Fraction): Fraction {
  return lowest(
    left.numerator * right.numerator,
    left.denominator * right.denominator,
  )
}

/**
 * The one divided by the other.
 *
 * @throws RangeError when `divisor` is zero
 */
export function over(dividend: Fraction, divisor: Fraction): Fraction {
  if (divisor.numerator === 0n) {
    throw new RangeError('over: expected a divisor that is not zero, got 0')
  }
  return lowest(
    dividend.numerator * divisor.denominator,
    dividend.denominator * divisor.numerator,
  )
}

/** The nearest whole number; a half goes away from zero, as on a till. */
export function roundHalfAway({ numerator, denominator }: Fraction): bigint {
  const size = numerator < 0n ? -numerator : numerator
  const rounded = (2n * size + denominator) / (2n * denominator)
  return numerator < 0n ? -rounded : rounded
}

/**
 * The number in decimal, with a full stop and without trailing zeros.
 *
 * @param maxDecimals whole, 0 or more; what lies beyond is rounded, a half away from zero
 */
export function decimalText(value: Fraction, maxDecimals: number): string {
  const scaled = roundHalfAway(
    times(value, { numerator: 10n ** BigInt(maxDecimals), denominator: 1n }),
  )
  const size = String(scaled < 0n ? -scaled : scaled).padStart(
    maxDecimals + 1,
    '0',
  )
  const whole = size.slice(0, size.length - maxDecimals)
  const decimals = size.slice(size.length - maxDecimals).replace(/0+$/, '')
  return `${scaled < 0n ? '-' : ''}${whole}${decimals === '' ? '' : `.${decimals}`}`
}
