import { stem } from '#core/captions/stem'

const greys = 'charcoal slate graphite pewter ash smoke stone dove'

/** Who made up a colour's name calls it by its plain one as well: "the navy" is "the blue". Common practice, no source. */
const names: Readonly<Record<string, string>> = {
  blue: 'navy sky cobalt indigo denim teal turquoise azure slate midnight ultramarine',
  green:
    'olive sage forest spruce teal moss emerald mint bottle fern hunter lime',
  grey: greys,
  gray: greys,
  black: 'charcoal ebony jet onyx midnight',
  white: 'cream ivory chalk linen alabaster snow bone',
  red: 'oxblood burgundy crimson scarlet brick cherry ruby maroon',
  yellow: 'ochre sunflower mustard lemon primrose gold saffron',
  pink: 'blush rose coral salmon flamingo',
  brown:
    'walnut chestnut hickory mahogany umber cocoa chocolate espresso oak sepia coffee',
  purple: 'plum aubergine lavender violet heather mauve',
  orange: 'terracotta rust apricot amber tangerine',
}
const hues = Object.entries(names).map(
  ([hue, all]) => [stem(hue), all.split(' ').map(stem)] as const,
)

/** How much less the plain name says than the one on the tin. Common practice, no source. */
export const plainHueShare = 0.7

/** The plain names of a product's colour that its own name does not have; all words are stems. */
export function plainHues(product: ReadonlySet<string>): readonly string[] {
  return hues.flatMap(([hue, all]) =>
    !product.has(hue) && all.some((name) => product.has(name)) ? [hue] : [],
  )
}
