import type { Chemistry, ProductCategory } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'
import { minutesPerDay, minutesPerHour } from '#core/units'

/** From the shortest to the longest that labels of a kind commonly say. */
export type TypicalRange = { readonly low: number; readonly high: number }

/** What labels of one kind of product commonly say for one ordinary coat. No label: a hint while the can is not at hand. */
export type TypicalTimes = {
  /** The kind, as it reads in a sentence. */
  readonly kind: string
  readonly touchMinutes?: TypicalRange
  readonly recoatMinutes?: TypicalRange
  /** Before a waterborne coat, where that asks for longer than one of its own kind. */
  readonly beforeWaterMinutes?: TypicalRange
  readonly cureDays?: TypicalRange
  /** What a range cannot say. */
  readonly note?: string
}

const minutes = (low: number, high: number): TypicalRange => ({ low, high })
const hours = (low: number, high: number): TypicalRange => ({
  low: low * minutesPerHour,
  high: high * minutesPerHour,
})
const days = (low: number, high: number): TypicalRange => ({ low, high })

const waterbornePaint: TypicalTimes = {
  kind: 'a waterborne paint',
  touchMinutes: hours(0.5, 1),
  recoatMinutes: hours(2, 4),
  cureDays: days(14, 30),
}
const oilPaint: TypicalTimes = {
  kind: 'an oil paint',
  touchMinutes: hours(2, 8),
  recoatMinutes: hours(16, 24),
  cureDays: days(7, 30),
}
const clearShellac: TypicalTimes = {
  kind: 'clear shellac',
  touchMinutes: minutes(5, 30),
  recoatMinutes: hours(0.5, 2),
  cureDays: days(7, 7),
}

/** By chemistry, and by category where that makes a difference; `usual` stands for all other categories. */
const table: Readonly<
  Partial<
    Record<
      Chemistry,
      Readonly<Partial<Record<ProductCategory | 'usual', TypicalTimes>>>
    >
  >
> = {
  'waterborne-acrylic': {
    usual: waterbornePaint,
    primer: {
      kind: 'a waterborne primer',
      touchMinutes: hours(0.5, 1),
      recoatMinutes: hours(1, 4),
      cureDays: days(7, 14),
    },
    'clear coat': { ...waterbornePaint, kind: 'a waterborne clear coat' },
  },
  'waterborne-alkyd': {
    usual: {
      kind: 'a waterborne alkyd or urethane enamel',
      touchMinutes: hours(0.5, 4),
      recoatMinutes: hours(4, 16),
      cureDays: days(21, 30),
    },
  },
  'oil-alkyd': {
    usual: oilPaint,
    primer: {
      kind: 'an oil primer',
      touchMinutes: hours(0.5, 4),
      recoatMinutes: hours(2, 24),
      cureDays: days(3, 7),
    },
    'clear coat': {
      kind: 'an oil varnish',
      touchMinutes: hours(2, 12),
      recoatMinutes: hours(4, 24),
      cureDays: days(7, 30),
      note: 'Fast ones ask 4 to 6 hours and close the same day, others 12 to 24 hours.',
    },
  },
  shellac: {
    usual: clearShellac,
    primer: {
      kind: 'a shellac primer',
      touchMinutes: minutes(5, 20),
      recoatMinutes: minutes(45, 60),
      cureDays: days(1, 3),
    },
  },
  lacquer: {
    usual: {
      kind: 'a lacquer',
      touchMinutes: minutes(5, 15),
      recoatMinutes: minutes(30, 60),
      cureDays: days(7, 21),
      note: 'Two-part lacquers have limits of their own, which only the label tells.',
    },
  },
  'oil-stain': {
    usual: {
      kind: 'an oil stain',
      recoatMinutes: hours(2, 24),
      beforeWaterMinutes: hours(24, 72),
      cureDays: days(1, 3),
    },
  },
  'gel-stain': {
    usual: {
      kind: 'a gel stain',
      touchMinutes: hours(4, 12),
      recoatMinutes: hours(6, 24),
      beforeWaterMinutes: hours(24, 72),
      cureDays: days(1, 3),
    },
  },
  'water-stain': {
    usual: {
      kind: 'a water stain',
      touchMinutes: hours(0.5, 1),
      recoatMinutes: hours(2, 4),
      cureDays: days(1, 1),
    },
  },
  wax: {
    usual: {
      kind: 'a paste wax',
      touchMinutes: minutes(5, 20),
      cureDays: days(7, 30),
      note: 'Nothing but more wax goes over it.',
    },
  },
  aerosol: {
    usual: {
      kind: 'an aerosol enamel',
      touchMinutes: minutes(10, 30),
      recoatMinutes: hours(24, 48),
      cureDays: days(1, 7),
      note: 'Most may be coated within the first hour too, and never in between.',
    },
  },
}

/** Products whose times follow from what they are for: only their own label tells. */
const labelAlone: ReadonlySet<ProductCategory> = new Set<ProductCategory>([
  'conditioner',
  'stripper',
  'cleaner',
  'filler',
  'adhesive',
  'abrasive',
  'paper',
])

/**
 * What labels commonly say for a kind of product: for the owner to look at where a label is silent. It decides no verdict.
 *
 * @returns undefined where only the label can tell
 * Common practice, no source: ranges as data sheets of such products give them, at about 23 °C and 50 %.
 */
export function typicalTimes(
  chemistry: Chemistry,
  category: ProductCategory,
): TypicalTimes | undefined {
  if (labelAlone.has(category)) return undefined
  const kinds = table[chemistry]
  return kinds?.[category] ?? kinds?.usual
}

/** The typical recoat and cure times as a sentence that says what they are: typical, and not this can's. */
export function typicalSentence(typical: TypicalTimes): string {
  const { recoatMinutes, cureDays } = typical
  const parts = [
    ...(recoatMinutes === undefined
      ? []
      : [`a wait of ${rangeWords(recoatMinutes)} before the next coat`]),
    ...(cureDays === undefined
      ? []
      : [
          `${rangeWords({ low: cureDays.low * minutesPerDay, high: cureDays.high * minutesPerDay })} to cure`,
        ]),
  ]
  const note = typical.note === undefined ? '' : ` ${typical.note}`
  return `Typical for ${typical.kind}: ${parts.join(' and ')}.${note} Your can may differ, and nothing is judged by this.`
}

function rangeWords({ low, high }: TypicalRange): string {
  return low === high
    ? lengthOfTime(low)
    : `${lengthOfTime(low)} to ${lengthOfTime(high)}`
}
