import type { Lab } from '#core/photos/colour-grid'

const degree = Math.PI / 180

/**
 * How different two colours look: the CIEDE2000 colour difference, with all weights 1. About 1 is just seen.
 *
 * Source: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary
 * Test Data, and Mathematical Observations", Color Research and Application 30 (1), 2005, equations 2 to 22; the formula
 * itself is CIE 142:2001.
 */
export function ciede2000(one: Lab, other: Lab): number {
  const meanOldChroma =
    (Math.hypot(one[1], one[2]) + Math.hypot(other[1], other[2])) / 2
  const stretch = 1 + 0.5 * (1 - chromaShare(meanOldChroma))
  const first = polar(one, stretch)
  const second = polar(other, stretch)
  const grey = first.chroma * second.chroma === 0

  const lightnessStep = other[0] - one[0]
  const chromaStep = second.chroma - first.chroma
  const turn = grey ? 0 : shortestTurn(second.hue - first.hue)
  const hueStep =
    2 * Math.sqrt(first.chroma * second.chroma) * Math.sin((turn / 2) * degree)

  const lightness = (one[0] + other[0]) / 2
  const chroma = (first.chroma + second.chroma) / 2
  const hue = grey ? first.hue + second.hue : meanHue(first.hue, second.hue)
  const byHue =
    1 -
    0.17 * cosine(hue - 30) +
    0.24 * cosine(2 * hue) +
    0.32 * cosine(3 * hue + 6) -
    0.2 * cosine(4 * hue - 63)
  const fromMiddle = (lightness - 50) ** 2
  const lightnessPart =
    lightnessStep / (1 + (0.015 * fromMiddle) / Math.sqrt(20 + fromMiddle))
  const chromaPart = chromaStep / (1 + 0.045 * chroma)
  const huePart = hueStep / (1 + 0.015 * chroma * byHue)
  // Blues are turned: there the ellipses of equal difference lie askew.
  const rotation =
    -2 *
    chromaShare(chroma) *
    Math.sin(60 * Math.exp(-(((hue - 275) / 25) ** 2)) * degree)
  return Math.sqrt(
    lightnessPart ** 2 +
      chromaPart ** 2 +
      huePart ** 2 +
      rotation * chromaPart * huePart,
  )
}

/** From 0 for greys to 1 for vivid colours. */
function chromaShare(chroma: number): number {
  return Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7))
}

/** Chroma, and hue in degrees from 0 to 360; the hue of a grey is 0. */
function polar(
  [, a, b]: Lab,
  stretch: number,
): { readonly chroma: number; readonly hue: number } {
  const stretched = a * stretch
  const hue = stretched === 0 && b === 0 ? 0 : Math.atan2(b, stretched) / degree
  return {
    chroma: Math.hypot(stretched, b),
    hue: hue < 0 ? hue + 360 : hue,
  }
}

function shortestTurn(turn: number): number {
  if (turn > 180) return turn - 360
  return turn < -180 ? turn + 360 : turn
}

function meanHue(one: number, other: number): number {
  const sum = one + other
  if (Math.abs(one - other) <= 180) return sum / 2
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2
}

function cosine(degrees: number): number {
  return Math.cos(degrees * degree)
}
