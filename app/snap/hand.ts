/** Remembers in which hand this phone is held: a matter of the phone, not of the journal. */
export const handCookie = 'coatbook-hand'

export type Hand = 'left' | 'right'

/** The hand that a cookie names; the right one unless it says left. */
export function handOf(value: string | undefined): Hand {
  return value === 'left' ? 'left' : 'right'
}
