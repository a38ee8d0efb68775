import type { AirReading } from '#core/air/reading'
import type { RuleAnswer } from '#core/finish/rule-answer'
import type {
  Method,
  PhotoRole,
  StepKind,
  TimeBasis,
} from '#core/journal/vocabulary'
import type { Units } from '#core/measures/units-of-measure'
import type { Amount, Product } from '#core/shelf/product'
import type { Span } from '#core/time/span'
import type { Instant } from '#core/units'

/** A part of a piece with a finish of its own. */
export type Surface = {
  readonly id: string
  readonly name: string
  /** Measured by the owner; absent: worked out from the piece where its shape tells. */
  readonly areaSquareMetres?: number
}

/** One item of furniture. Lengths in millimetres, outside, at the widest. */
export type Piece = {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly widthMillimetres?: number
  readonly depthMillimetres?: number
  readonly heightMillimetres?: number
  readonly material?: string
  /** What a buyer must be told, one to a line; "none" where the owner looked and found nothing. */
  readonly flaws?: string
  readonly style?: string
  /** How old it is, and what tells, in the owner's words. */
  readonly age?: string
  readonly ageKnownBy?: string
  /** Whether its hardware is its own, cleaned or new, in the owner's words. */
  readonly hardware?: string
  readonly liner?: 'removable' | 'permanent'
  readonly surfaces: readonly Surface[]
}

/** A camera or phone that took photos of this job. */
export type Camera = {
  readonly id: string
  /** Make and model as one name, fit for the screen. */
  readonly name: string
  /** How far its clock is off, once somebody has checked it: seconds to add to its times. */
  readonly clock?: {
    readonly correctionSeconds: number
    readonly uncertaintySeconds: number
  }
}

/** A photo and what it shows. */
export type Photo = {
  readonly id: string
  readonly sha256: string
  readonly fileName: string
  /** Upright pixels. */
  readonly width: number
  readonly height: number
  readonly role: PhotoRole
  readonly view?: string
  /** The flaw that it is there to show, in the owner's words. */
  readonly flaw?: string
  readonly surfaceIds: readonly string[]
  readonly stepId?: string
  readonly cameraId?: string
  readonly taken: Span
  readonly basis: TimeBasis
  readonly warnings: readonly string[]
}

/** One operation on one or more surfaces. */
export type Step = {
  readonly id: string
  readonly kind: StepKind
  readonly productId?: string
  readonly method?: Method
  /** Parts added to 100 parts of product. */
  readonly thinningPercent?: number
  /** P grade, FEPA (ISO 6344). */
  readonly grit?: number
  readonly amount?: Amount
  /** The can with what was in it, before and after. */
  readonly weighed?: {
    readonly beforeGrams: number
    readonly afterGrams: number
  }
  readonly note?: string
  /** Typed by the owner; wins over the photos. */
  readonly startedAt?: Instant
  readonly finishedAt?: Instant
  readonly surfaces: readonly {
    readonly surfaceId: string
    /** Counts the coats of this kind on this surface, from 1. */
    readonly coat?: number
  }[]
  readonly photoIds: readonly string[]
  readonly createdAt: Instant
}

/** Everything written down about one job: what all screens and exports are computed from. */
export type Journal = {
  readonly job: {
    readonly id: string
    readonly title: string
    readonly createdAt: Instant
    readonly finishedAt?: Instant
    /** When it was sold, and when the buyer took it: furniture may cure in between. */
    readonly soldAt?: Instant
    readonly deliveredAt?: Instant
    readonly askingPriceMinor?: number
    readonly collection?: string
    /** Whom it is made for, where somebody ordered it, and what was agreed with them. */
    readonly client?: string
    readonly brief?: string
  }
  readonly pieces: readonly Piece[]
  /** In order of their capture times. */
  readonly photos: readonly Photo[]
  readonly steps: readonly Step[]
  /** The products its steps used, each once. */
  readonly products: readonly Product[]
  readonly cameras: readonly Camera[]
  /** The workshop's readings around the job, in order of time. */
  readonly air: readonly AirReading[]
  /** What the owner answered to findings of the finish rules; absent: nothing. */
  readonly answers?: readonly RuleAnswer[]
}

/** The settings that decide how times, lengths and money are read and shown. */
export type WorkshopSettings = {
  readonly name: string
  /** IANA time zone. */
  readonly zone: string
  /** ISO 4217. */
  readonly currency: string
  readonly units: Units
}
