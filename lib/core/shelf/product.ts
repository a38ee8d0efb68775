export const chemistries = [
  'waterborne-acrylic',
  'waterborne-alkyd',
  'oil-alkyd',
  'shellac',
  'lacquer',
  'oil-stain',
  'water-stain',
  'gel-stain',
  'wax',
  'paste',
  'aerosol',
  'other',
] as const
export type Chemistry = (typeof chemistries)[number]

export const productCategories = [
  'primer',
  'paint',
  'stain',
  'conditioner',
  'clear coat',
  'glaze',
  'wax',
  'stripper',
  'cleaner',
  'filler',
  'adhesive',
  'abrasive',
  'paper',
  'hardware finish',
  'other',
] as const
export type ProductCategory = (typeof productCategories)[number]

export const amountUnits = [
  'l',
  'ml',
  'us-gal',
  'us-qt',
  'us-pt',
  'us-fl-oz',
  'imp-gal',
  'imp-pt',
  'imp-fl-oz',
  'kg',
  'g',
  'lb',
  'oz',
  'm',
  'yd',
  'ft',
  'sheet',
  'roll',
  'piece',
  'can',
] as const
export type AmountUnit = (typeof amountUnits)[number]

/** So much of a product. */
export type Amount = { readonly value: number; readonly unit: AmountUnit }

/** One stretch of time in which the label allows the next coat, in minutes after this one. */
export type RecoatWindow = {
  readonly fromMinutes: number
  /** Absent: no end. */
  readonly toMinutes?: number
  /** What must be done first for this window to count. */
  readonly needs?: 'sand' | 'scuff'
}

/** Air the label's times are stated for. */
export type ReferenceAir = {
  readonly celsius: number
  readonly humidity: number
}

/** What the can says. Every value is the maker's; absent means the label does not say. */
export type Label = {
  readonly touchMinutes?: number
  readonly recoatMinutes?: number
  readonly recoatByMinutes?: number
  readonly recoatWindows?: readonly RecoatWindow[]
  readonly sandMinutes?: number
  readonly handleMinutes?: number
  readonly cureDays?: number
  /** What the label names of the air that its times are stated for: one of the two, or both. */
  readonly reference?: Partial<ReferenceAir>
  readonly minCelsius?: number
  /** Relative, percent. */
  readonly maxHumidity?: number
  readonly spreadSquareMetresPerLitre?: number
  /** Volume solids, 0 to 1. */
  readonly solidsByVolume?: number
  readonly maxThinningPercent?: number
  /** Turns what was weighed into a volume. */
  readonly densityKilogramsPerLitre?: number
}

/** Something on the shelf. */
export type Product = {
  readonly id: string
  readonly name: string
  readonly category: ProductCategory
  readonly chemistry: Chemistry
  readonly label: Label
  readonly pack?: { readonly amount: Amount; readonly priceMinor: number }
  /** Packs bought so far, in all; what is left is reckoned from it. */
  readonly packsBought?: number
  readonly link?: string
  /** Whether the link earns the owner something. */
  readonly paidLink?: boolean
}
