// ISO 4217 list one, column "minor unit"; typed from memory. Currencies not named here have two.
const digitsOf: Readonly<Record<0 | 3 | 4, string>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
}

/**
 * How many decimals a currency has: 2 for GBP, 0 for JPY, 3 for KWD.
 *
 * @param currency ISO 4217, three capital letters
 */
export function minorUnitDigits(currency: string): 0 | 2 | 3 | 4 {
  for (const digits of [0, 3, 4] as const) {
    if (digitsOf[digits].split(' ').includes(currency)) return digits
  }
  return 2
}
