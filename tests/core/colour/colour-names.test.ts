import { expect, test } from 'vitest'
import { nameColour } from '#core/colour/colour-names'
import { labOf } from '#core/photos/colour-grid'

/**
 * Named colours of CSS Color Module Level 4, section 6.1, with their values there, each with the plain word that its own
 * name says: seagreen is a green, slateblue is left out as people disagree.
 */
test.each([
  ['white', 255, 255, 255, 'white'],
  ['ivory', 255, 255, 240, 'white'],
  ['cornsilk', 255, 248, 220, 'cream'],
  ['gray', 128, 128, 128, 'grey'],
  ['dimgray', 105, 105, 105, 'grey'],
  ['silver', 192, 192, 192, 'grey'],
  ['black', 0, 0, 0, 'black'],
  ['tan', 210, 180, 140, 'tan'],
  ['saddlebrown', 139, 69, 19, 'brown'],
  ['firebrick', 178, 34, 34, 'red'],
  ['darkorange', 255, 140, 0, 'orange'],
  ['gold', 255, 215, 0, 'yellow'],
  ['forestgreen', 34, 139, 34, 'green'],
  ['darkgreen', 0, 100, 0, 'green'],
  ['teal', 0, 128, 128, 'blue-green'],
  ['darkcyan', 0, 139, 139, 'blue-green'],
  ['steelblue', 70, 130, 180, 'blue'],
  ['navy', 0, 0, 128, 'blue'],
  ['lightblue', 173, 216, 230, 'blue'],
  ['indigo', 75, 0, 130, 'purple'],
  ['pink', 255, 192, 203, 'pink'],
])('%s is called as everybody would', (_name, red, green, blue, word) => {
  expect(nameColour(labOf(red, green, blue))).toBe(word)
})
