import type { SmallPicture } from '#core/colour/colours-of-pictures'
import { linearLight, screenValue } from '#core/colour/linear-light'
import { solveLinear } from '#core/geometry/solve-linear'

/** What the light of a picture is multiplied by, in linear light. */
export type LightGains = readonly [red: number, green: number, blue: number]

/** Why the light of an after is left as it was taken. */
export type LightDoubt = 'little-unchanged' | 'not-around' | 'too-far'

/** How the light of an after would be brought to that of its before. */
export type LightMatch = {
  /** The part of the surroundings that only the light changed, 0 to 1; the middle counts little. */
  readonly unchanged: number
} & (
  | { readonly accepted: true; readonly gains: LightGains }
  | { readonly accepted: false; readonly doubt: LightDoubt }
)

// All of these are common practice, no source.
/** Less light than this is noise, more may be burnt out. */
const darkest = 0.01
const brightest = 0.9
/** Logarithms of ratios that belong together lie in neighbouring cells so wide; no light is looked for past the widest. */
const cell = 0.06
const widest = Math.log(2.5)
const cellsAcross = 2 * Math.ceil(widest / cell) + 1
/** How far, as a logarithm, a pixel may lie from the even gain and still count as unchanged. */
const near = 0.12
const rounds = 6
/** Less of the surroundings than this is no witness of the light. */
const leastUnchanged = 0.2
/** What is unchanged must lie around the piece: in the middle its part is smaller than this, compared with around it. */
const mostInMiddle = 0.85
/** A gentle change: half again as bright at most, and the channels so far apart at most. */
const mostGain = 1.5
const mostTint = 1.25

/**
 * The gains that bring the light of an after to that of its before, found from what did not change: the floor, the wall.
 *
 * Of the ratios between the two pictures, channel by channel, those are looked for that most of the surroundings have in
 * common; what goes with them, where the light may differ evenly across the picture, is taken as unchanged, and the gains
 * are its medians. They are refused where too little is unchanged, where it does not lie around something that changed
 * (a finish that fills the picture must never be taken for the light), and where they would be more than gentle.
 *
 * @param before and after, in one frame: each pixel shows the same place
 * @throws RangeError when they differ in size
 */
export function matchLight(
  before: SmallPicture,
  after: SmallPicture,
): LightMatch {
  if (before.width !== after.width || before.height !== after.height) {
    throw new RangeError(
      `matchLight: expected an after of ${before.width} x ${before.height}, got ${after.width} x ${after.height}`,
    )
  }
  const samples = samplesOf(before, after)
  const found = settled(samples)
  const unchanged = shareOf(found, samples, ({ around }) => around)
  const inMiddle = shareOf(found, samples, ({ around }) => 1 - around)
  if (unchanged < leastUnchanged) {
    return { accepted: false, doubt: 'little-unchanged', unchanged }
  }
  if (inMiddle > mostInMiddle * unchanged) {
    return { accepted: false, doubt: 'not-around', unchanged }
  }
  const gain = (channel: 0 | 1 | 2) =>
    Math.exp(medianOf(found.map(({ ratios }) => ratios?.[channel] ?? 0)))
  const gains: LightGains = [gain(0), gain(1), gain(2)]
  const [least, most] = [Math.min(...gains), Math.max(...gains)]
  return most > mostGain || least < 1 / mostGain || most > mostTint * least
    ? { accepted: false, doubt: 'too-far', unchanged }
    : { accepted: true, gains, unchanged }
}

/** Why the light is left as it was taken, for the owner. */
export function lightDoubtSentence(doubt: LightDoubt): string {
  switch (doubt) {
    case 'little-unchanged':
      return 'The light is left as it was: the two photos show too little that did not change, such as floor or wall.'
    case 'not-around':
      return 'The light is left as it was: the piece fills the photos, so nothing around it tells the light from the finish.'
    case 'too-far':
      return 'The light is left as it was: it differs so much that matching it would change how the finish looks.'
  }
}

/** What the gains do, for the owner. */
export function lightWords([red, green, blue]: LightGains): string {
  const percent = Math.round(
    (0.2126 * red + 0.7152 * green + 0.0722 * blue - 1) * 100,
  )
  const brightness =
    Math.abs(percent) < 2
      ? ''
      : `${Math.abs(percent)} % ${percent > 0 ? 'lighter' : 'darker'}`
  const warmth = red / blue
  const tint =
    warmth > 1.03
      ? 'a little warmer'
      : warmth < 1 / 1.03
        ? 'a little cooler'
        : ''
  const said = [brightness, tint].filter((part) => part !== '').join(' and ')
  return said === ''
    ? 'The light of both was alike already.'
    : `The after is shown ${said}, as floor and wall were before.`
}

/** From so much light on, an enlarged value is bent towards white, which stays white. */
const knee = 0.5

/**
 * What becomes of each value of a channel under a gain: exactly so much light, but a gain above 1 bends what lies above
 * half of all light towards white, so that nothing burns out.
 *
 * @param gain 0.5 to 1.5
 * @returns 256 values, never falling
 * @throws RangeError outside that range
 */
export function relitValues(gain: number): Uint8Array {
  if (!(gain >= 0.5 && gain <= mostGain)) {
    throw new RangeError(
      `relitValues: expected a gain of 0.5 to ${mostGain}, got ${gain}`,
    )
  }
  const from = knee / gain
  const bend = (1 - gain) / (1 - from) ** 2
  return Uint8Array.from({ length: 256 }, (_, value) => {
    const light = linearLight(value)
    const past = light - from
    const lit =
      gain <= 1 || past <= 0
        ? light * gain
        : knee + gain * past + bend * past ** 2
    return Math.round(screenValue(Math.min(1, lit)))
  })
}

/** A pixel, seen in both pictures. */
type Sample = {
  /** From -0.5 to 0.5. */
  readonly x: number
  readonly y: number
  /** 0 in the middle, where the piece is, to nearly 1 in a corner. */
  readonly around: number
  /** Logarithms of before over after; absent where one of the two is too dark or too bright to tell. */
  readonly ratios?: readonly [number, number, number]
}

function samplesOf(
  before: SmallPicture,
  after: SmallPicture,
): readonly Sample[] {
  const { width, height } = before
  const light = Array.from({ length: 256 }, (_, value) => linearLight(value))
  const lightAt = ({ rgb }: SmallPicture, at: number) =>
    light[Math.round(rgb[at] ?? 0)] ?? 0
  return Array.from({ length: width * height }, (_, pixel) => {
    const x = ((pixel % width) + 0.5) / width - 0.5
    const y = (Math.floor(pixel / width) + 0.5) / height - 0.5
    const around = 1 - Math.exp(-8 * (x ** 2 + y ** 2))
    const ratio = (channel: number) => {
      const one = lightAt(before, 3 * pixel + channel)
      const other = lightAt(after, 3 * pixel + channel)
      const tells =
        Math.min(one, other) > darkest && Math.max(one, other) < brightest
      return tells ? Math.log(one / other) : NaN
    }
    const ratios = [ratio(0), ratio(1), ratio(2)] as const
    return ratios.some(Number.isNaN)
      ? { x, y, around }
      : { x, y, around, ratios }
  })
}

/** The samples that have the commonest ratios of the surroundings in common, as far as those differ evenly. */
function settled(samples: readonly Sample[]): readonly Sample[] {
  const start = commonest(samples)
  if (start === undefined) return []
  let planes: readonly Plane[] = start.map((constant) => [constant, 0, 0])
  let found: readonly Sample[] = []
  for (let round = 0; round < rounds; round += 1) {
    const current = planes
    found = samples.filter(({ ratios, x, y }) =>
      ratios?.every((ratio, channel) => {
        const [constant, across, down] = current[channel] ?? [0, 0, 0]
        return Math.abs(ratio - constant - across * x - down * y) < near
      }),
    )
    const fitted = [0, 1, 2].map((channel) => planeThrough(found, channel))
    if (fitted.some((plane) => plane === undefined)) return found
    planes = fitted.flatMap((plane) => (plane === undefined ? [] : [plane]))
  }
  return found
}

/** The middle of the three-dimensional cell of ratios that, with its neighbours, holds most of the surroundings. */
function commonest(samples: readonly Sample[]): readonly number[] | undefined {
  const half = (cellsAcross - 1) / 2
  const counts = new Float64Array(cellsAcross ** 3)
  const at = (red: number, green: number, blue: number) =>
    (red * cellsAcross + green) * cellsAcross + blue
  for (const { ratios, around } of samples) {
    if (ratios === undefined) continue
    const [red, green, blue] = ratios.map(
      (ratio) => Math.round(ratio / cell) + half,
    )
    if (red === undefined || green === undefined || blue === undefined) continue
    if (Math.min(red, green, blue) < 0) continue
    if (Math.max(red, green, blue) >= cellsAcross) continue
    const index = at(red, green, blue)
    counts[index] = (counts[index] ?? 0) + around
  }
  let most = 0
  let best: readonly number[] | undefined
  for (let red = 1; red < cellsAcross - 1; red += 1) {
    for (let green = 1; green < cellsAcross - 1; green += 1) {
      for (let blue = 1; blue < cellsAcross - 1; blue += 1) {
        if (counts[at(red, green, blue)] === 0) continue
        let sum = 0
        for (let one = red - 1; one <= red + 1; one += 1) {
          for (let two = green - 1; two <= green + 1; two += 1) {
            for (let three = blue - 1; three <= blue + 1; three += 1) {
              sum += counts[at(one, two, three)] ?? 0
            }
          }
        }
        if (sum > most) {
          most = sum
          best = [red, green, blue].map((index) => (index - half) * cell)
        }
      }
    }
  }
  return best
}

/** A ratio's logarithm in the middle of the picture, and how it changes across it and down. */
type Plane = readonly [constant: number, across: number, down: number]

/** The plane of least squares through the ratios of a channel. */
function planeThrough(
  samples: readonly Sample[],
  channel: number,
): Plane | undefined {
  const sums = Array.from({ length: 3 }, () => [0, 0, 0, 0])
  for (const { x, y, ratios } of samples) {
    const terms = [1, x, y, ratios?.[channel] ?? 0]
    for (const [row, sum] of sums.entries()) {
      for (const [column, term] of terms.entries()) {
        sum[column] = (sum[column] ?? 0) + (terms[row] ?? 0) * term
      }
    }
  }
  const solved = solveLinear(sums)
  return solved === undefined
    ? undefined
    : [solved[0] ?? 0, solved[1] ?? 0, solved[2] ?? 0]
}

function shareOf(
  some: readonly Sample[],
  all: readonly Sample[],
  weight: (sample: Sample) => number,
): number {
  const sumOf = (samples: readonly Sample[]) =>
    samples.reduce((sum, sample) => sum + weight(sample), 0)
  const whole = sumOf(all)
  return whole === 0 ? 0 : sumOf(some) / whole
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other)
  return sorted[sorted.length >> 1] ?? 0
}
