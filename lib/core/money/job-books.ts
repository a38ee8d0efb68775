/** What a job costs besides its materials and hours. */
export const costKinds = [
  'acquisition',
  'travel',
  'consumables',
  'parts',
  'selling',
  'other',
] as const
export type CostKind = (typeof costKinds)[number]

/** One cost as it was written down: so many at so much each. */
export type CostEntry = {
  readonly id: string
  readonly kind: CostKind
  readonly words: string
  readonly quantity: number
  /** Minor units, with parts of one where the price has them: 72.5 cents a mile. */
  readonly eachMinor: number
  /** Absent: shared by all pieces of the job. */
  readonly pieceId?: string
}

/** Hands-on work that is no step. */
export type WorkEntry = {
  readonly id: string
  readonly words: string
  /** Whole. */
  readonly minutes: number
  /** Absent: shared by all pieces of the job. */
  readonly pieceId?: string
}

/** The hours of one step as the owner corrected them; absent: as photos or settings tell. Whole minutes. */
export type StepHours = {
  readonly stepId: string
  readonly workMinutes?: number
  readonly setUpMinutes?: number
  readonly cleanUpMinutes?: number
  /** How many pieces of other jobs shared set-up and clean-up. */
  readonly otherPieces: number
}

/** What a job was sold for and what selling it cost. Minor units. */
export type Sale = {
  readonly priceMinor?: number
  /** As they were charged; absent: as the percentage and the fixed fee give them. */
  readonly feesPaidMinor?: number
  /** Tax within the price that is handed on: no income. */
  readonly taxMinor?: number
  /** For this job; absent: the workshop's. */
  readonly feePercent?: number
  readonly feeFixedMinor?: number
}

/** What is written down of a job's money. It is no part of the journal: nothing that leaves is made from it. */
export type JobBooks = {
  readonly costs: readonly CostEntry[]
  readonly work: readonly WorkEntry[]
  readonly hours: readonly StepHours[]
  readonly sale: Sale
}

/** What an hour and a sale cost in a workshop. */
export type Rates = {
  /** What an hour of one's own work is to earn, in minor units. */
  readonly hourlyMinor?: number
  readonly yearlyOverheadMinor?: number
  /** Hands-on hours in a year, which carry the overhead. */
  readonly productiveHours?: number
  readonly feePercent?: number
  readonly feeFixedMinor?: number
  /** Of a spraying session, in whole minutes. */
  readonly setUpMinutes?: number
  readonly cleanUpMinutes?: number
}
