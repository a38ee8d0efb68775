import { ciede2000 } from '#core/colour/ciede2000'
import { type Lab, labOf } from '#core/photos/colour-grid'

/** The plain names of colours, as one says them across a yard. */
export const colourNames = [
  'white',
  'cream',
  'grey',
  'black',
  'tan',
  'brown',
  'red',
  'orange',
  'yellow',
  'green',
  'blue-green',
  'blue',
  'purple',
  'pink',
] as const
export type ColourName = (typeof colourNames)[number]

/** What each name is said of, a few examples from light to dark, sRGB in hexadecimal. Common practice, no source. */
const examples: Readonly<Record<ColourName, readonly string[]>> = {
  white: ['ffffff', 'f2f1ec'],
  cream: ['f4ead2', 'e6d9b8'],
  grey: ['c4c4c2', '989896', '6c6c6c', '484848'],
  black: ['242322', '000000'],
  tan: ['d8bd94', 'c19a6b', 'a98457'],
  brown: ['8a5f3a', '6b4423', '4f3424', '3a2519'],
  red: ['c8372d', '9b2622', '6d1f1f'],
  orange: ['f08c2e', 'd2691e'],
  yellow: ['f5e17a', 'f0c419', 'c9a227'],
  green: ['a9bd9a', '7a9a5e', '3f7d3a', '2c4a2e'],
  'blue-green': ['9cc9c4', '4f9d9b', '1f7a7a', '12504f'],
  blue: ['a9c6e0', '5b8fc7', '2a5da8', '1c2e5a'],
  purple: ['b8a3d4', '7d559f', '4a2a63'],
  pink: ['f0c3cc', 'dd8fa6', 'c4567f'],
}

const known: readonly { readonly name: ColourName; readonly colour: Lab }[] =
  colourNames.flatMap((name) =>
    examples[name].map((hex) => ({
      name,
      colour: labOf(byte(hex, 0), byte(hex, 1), byte(hex, 2)),
    })),
  )

function byte(hex: string, index: number): number {
  return Number.parseInt(hex.slice(index * 2, index * 2 + 2), 16)
}

/** The plain name of a colour: that of the example it differs least from (CIEDE2000). */
export function nameColour(colour: Lab): ColourName {
  let best: ColourName = 'grey'
  let least = Infinity
  for (const one of known) {
    const difference = ciede2000(colour, one.colour)
    if (difference < least) {
      least = difference
      best = one.name
    }
  }
  return best
}
