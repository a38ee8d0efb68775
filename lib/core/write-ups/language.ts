import type { SpokenFact } from '#core/captions/ask-from-captions'
import type { ChapterProblem } from '#core/captions/chapter'
import type { Piece, Surface } from '#core/journal/journal'
import type { PhotoRole, StepKind } from '#core/journal/vocabulary'
import type { FinishLayer, SurfaceFinish } from '#core/materials/list-finishes'
import type { Material, SandedPlaces } from '#core/materials/list-materials'
import type { Stock } from '#core/materials/stock'
import type { Elapsed } from '#core/time/span'
import type { WallClock } from '#core/time/zone'
import type { Layer, Operation } from '#core/write-ups/surface-work'
import type { ToldStep } from '#core/write-ups/told-step'

/** Surfaces of one piece. */
export type Place = {
  readonly piece: Piece
  readonly surfaces: readonly Surface[]
}

/** Surfaces that look alike. */
export type LookOf = {
  readonly layers: readonly Layer[]
  readonly places: readonly Place[]
}

/** Which sizes a piece has; in the order they are told. */
export type Side = 'width' | 'depth' | 'height'

/** What the finish of a job shows as a whole. */
export type Appearance = {
  /** The look of every outer surface that is not among the others; absent when the looks must be told one by one. */
  readonly main?: readonly Layer[]
  readonly others: readonly LookOf[]
}

/** How lengths and dates are written. */
export type Units = 'metric' | 'us'

/**
 * All the words of a language that write-ups and lists are made of.
 *
 * Each function gives whole lines or sentences, closed with their full stop; facts go in as values and
 * as the owner's own words, already plain. `pieces` are all pieces of the job, to tell them apart by.
 */
export type Language = {
  readonly title: (
    told: {
      readonly pieces: readonly Piece[]
      readonly colours: readonly string[]
      /** The one that all of them have, where there is one. */
      readonly colour?: string
      readonly main?: readonly Layer[]
      readonly widest?: Piece
    },
    units: Units,
  ) => readonly string[]
  readonly summary: (pieces: readonly Piece[], appearance: Appearance) => string
  /** @param own pieces of one size */
  readonly size: (
    own: readonly Piece[],
    pieces: readonly Piece[],
    units: Units,
  ) => string
  /** The same in fewer words. */
  readonly sizeBriefly: Language['size']
  /** @param own the pieces that it is true of */
  readonly material: (
    words: string,
    own: readonly Piece[],
    pieces: readonly Piece[],
  ) => string
  readonly doneHeading: string
  readonly done: (
    places: readonly Place[],
    pieces: readonly Piece[],
    operations: readonly Operation[],
  ) => string | undefined
  readonly style: (
    words: string,
    own: readonly Piece[],
    pieces: readonly Piece[],
  ) => string
  /** @param knownBy what tells; empty where nobody said */
  readonly age: (
    age: string,
    knownBy: string,
    own: readonly Piece[],
    pieces: readonly Piece[],
  ) => string
  readonly hardware: (
    words: string,
    own: readonly Piece[],
    pieces: readonly Piece[],
  ) => string
  readonly liner: (
    liner: 'removable' | 'permanent',
    own: readonly Piece[],
    pieces: readonly Piece[],
  ) => string
  readonly conditionHeading: string
  /** @param photos their numbers in the listing, from 1 */
  readonly flaw: (
    words: string,
    photos: readonly number[],
    piece: Piece | undefined,
    pieces: readonly Piece[],
  ) => string
  readonly flawless: (own: readonly Piece[], pieces: readonly Piece[]) => string
  /** Where there is no room to tell each of them. */
  readonly flawsBriefly: (count: number) => string
  readonly lastCoat: (day: WallClock, doubtful: boolean, units: Units) => string
  readonly curing: (
    told: {
      readonly day: WallClock
      readonly days: number
      readonly product: string
      /** The day of its last coat, where another was the last of all. */
      readonly laidOn?: WallClock
      /** What puts the day after the one that the label alone gives: the workshop's air, or photos without a sure time. */
      readonly laterBy?: 'air' | 'photos'
      /** Whether it rests on a clock that nobody has checked. */
      readonly doubtful: boolean
      /** Products of last coats whose label gives no time to full cure. */
      readonly except: readonly string[]
    },
    units: Units,
  ) => string
  /** The day, and that it is to be handled gently until then. */
  readonly curingBriefly: Language['curing']
  readonly cured: (
    told: {
      readonly day: WallClock
      readonly days: number
      readonly product: string
      /** The day of its last coat, where another was the last of all. */
      readonly laidOn?: WallClock
      readonly except: readonly string[]
    },
    units: Units,
  ) => string
  readonly cureUnknown: string
  readonly cureUnknownBriefly: string
  readonly care: {
    /** @param isHeaded whether it stands under a heading that says what it is about */
    readonly now: (isHeaded: boolean) => string
    readonly afterCure: string
    readonly wax: string
    /** Where all of it is waxed. */
    readonly waxAlone: (isHeaded: boolean) => string
    /** @param top whether things are set down on it */
    readonly use: (top: boolean) => string
  }
  readonly leadUntested: (told: {
    readonly by: readonly ('strip' | 'sand' | 'scuff')[]
    /** Of the pieces that may be old, those whose age is noted and those whose age is not. */
    readonly aged: readonly Piece[]
    readonly ageless: readonly Piece[]
    readonly pieces: readonly Piece[]
  }) => string
  /** For little room, the most words first; each says that there may be lead, and to have it tested. */
  readonly leadUntestedBriefly: readonly string[]
  readonly leadNoted: (note: string) => string
  /** Where a test is noted and there is no room for what was noted: never a result, which only the note gives. */
  readonly leadNotedBriefly: (bySwab: boolean) => readonly string[]
  readonly leadScreen: string
  readonly tipOver: (pieces: readonly Piece[], all: readonly Piece[]) => string
  /** For little room, the most words first; each says that it can tip over, and to fix it to the wall. */
  readonly tipOverBriefly: (
    pieces: readonly Piece[],
    all: readonly Piece[],
  ) => readonly string[]
  /** @param money undefined where it is given away */
  readonly price: (money: string | undefined) => string
  /** In the place of the price once it has a buyer. */
  readonly sold: string
  /** What stands on a tag in the place of a price. */
  readonly tag: { readonly givenAway: string; readonly sold: string }
  readonly collection: (words: string) => string
  /** Words that a buyer would search for, the most telling first. */
  readonly keywords: (told: {
    readonly pieces: readonly {
      readonly piece: Piece
      readonly colours: readonly string[]
      readonly layers: readonly Layer[]
    }[]
    /** Those of the whole job, the most spread first. */
    readonly colours: readonly string[]
  }) => readonly string[]
  readonly keywordLine: (keywords: readonly string[]) => string
  readonly ask: {
    readonly side: (
      side: Side,
      piece: Piece,
      pieces: readonly Piece[],
    ) => string
    readonly material: (piece: Piece, pieces: readonly Piece[]) => string
    readonly flaws: (piece: Piece, pieces: readonly Piece[]) => string
    readonly flawPhoto: (flaw: string) => string
    readonly age: (piece: Piece, pieces: readonly Piece[]) => string
    readonly ageKnownBy: (piece: Piece, pieces: readonly Piece[]) => string
    readonly liner: (piece: Piece, pieces: readonly Piece[]) => string
    readonly client: string
    readonly colour: (product: string) => string
    readonly sheen: (product: string) => string
    readonly clock: (cameras: readonly string[]) => string
    readonly cureDays: (product: string) => string
    readonly lastCoat: string
    readonly work: (piece: Piece, pieces: readonly Piece[]) => string
    readonly hardware: (piece: Piece, pieces: readonly Piece[]) => string
    readonly repair: (piece: Piece, pieces: readonly Piece[]) => string
    readonly lead: string
    readonly soundness: (place: Place, pieces: readonly Piece[]) => string
    readonly child: (piece: Piece, pieces: readonly Piece[]) => string
    readonly price: string
    readonly collection: string
    readonly finished: string
  }
  readonly video: {
    readonly disclosure: string
    readonly paidMark: string
    /** @param done what was done and the name of the surface, in order */
    readonly work: (
      done: readonly { readonly operation: Operation; readonly on: string }[],
    ) => string | undefined
    readonly materialsHeading: string
    readonly material: (
      number: number,
      material: Material,
      paid: boolean,
      units: Units,
    ) => string
    readonly methodsHeading: string
    readonly method: (
      places: readonly Place[],
      pieces: readonly Piece[],
      operations: readonly Operation[],
    ) => string | undefined
    readonly waitsHeading: string
    readonly wait: (told: {
      readonly places: readonly Place[]
      readonly pieces: readonly Piece[]
      readonly elapsed: Elapsed
      readonly from: ToldStep
      readonly to: ToldStep
      /** What the wait fell short of, or may have: the label's own minimum, or that minimum in the air there was. */
      readonly shortOf?: {
        readonly minutes: number
        readonly by: 'label' | 'air'
      }
    }) => string
    readonly safetyHeading: string
    readonly linksHeading: string
    readonly link: (label: string, address: string) => string
    readonly stripper: string
    readonly oldFinish: string
    readonly spraying: string
    readonly oilyRags: string
    readonly dust: string
    readonly authority: string
  }
  readonly careCard: {
    readonly title: (pieces: readonly Piece[]) => string
    readonly finishHeading: string
    readonly cleanHeading: string
    readonly touchUpHeading: string
    readonly touchUp: (
      places: readonly Place[],
      pieces: readonly Piece[],
      layers: readonly FinishLayer[],
    ) => string
    readonly touchUpHow: string
    readonly cautionHeading: string
    readonly maker: (workshop: string) => string
    readonly page: (address: string) => string
    /** Beside the QR code of the address. */
    readonly madeAt: (address: string) => string
    /** The text alternative of that code. */
    readonly codeOf: (address: string) => string
  }
  readonly report: {
    readonly title: (job: string) => string
    readonly client: (client: string) => string
    readonly brief: (brief: string) => string
    readonly dates: (
      from: WallClock,
      to: WallClock,
      doubtful: boolean,
      units: Units,
    ) => string
    readonly materialsHeading: string
  }
  /** Text alternatives of a photo, the fullest first. */
  readonly photo: (told: {
    readonly pieces: readonly Piece[]
    /** The pieces with the surfaces that a detail shows; none where the whole is to be seen. */
    readonly surfaces: readonly Piece[]
    readonly all: readonly Piece[]
    readonly role: PhotoRole
    readonly view?: string
    readonly flaw?: string
    readonly step?: ToldStep
    readonly appearance: Appearance
  }) => readonly string[]
  readonly chapters: {
    readonly heading: string
    readonly line: (seconds: number, title: string) => string
    readonly introduction: string
    readonly ending: string
    /** `coats`: how many coats of the kind the job has; `places`: named where the kind alone does not tell. */
    readonly step: (told: {
      readonly kind: StepKind
      readonly coat?: number
      readonly coats: number
      readonly places: readonly string[]
    }) => string
    /** For whoever sets them. */
    readonly problem: (problem: ChapterProblem) => string
    /** Of a typed line. */
    readonly noTime: (line: string) => string
    /** `known`: how many coats the journal has. */
    readonly ask: (told: {
      readonly fact: SpokenFact
      readonly kind: StepKind
      readonly values: readonly number[]
      readonly known: number
    }) => string
  }
  readonly pair: (told: {
    readonly pieces: readonly Piece[]
    readonly all: readonly Piece[]
    readonly view?: string
    readonly appearance: Appearance
  }) => readonly string[]
  /** Lines of a sheet, without a full stop. */
  readonly sheet: {
    readonly before: string
    readonly after: string
    /** How the pieces look, longest first; empty where nothing was laid on. */
    readonly finish: (
      appearance: Appearance,
      pieces: readonly Piece[],
    ) => readonly string[]
    /** Empty where nothing was measured. */
    readonly size: (pieces: readonly Piece[], units: Units) => string
    /** One step, in a word or two. */
    readonly step: (kind: StepKind, coat: number | undefined) => string
    /** What stands before each fact in rows. */
    readonly finishHead: string
    readonly sizeHead: string
    readonly priceHead: string
  }
  readonly materials: {
    readonly title: (job: string) => string
    readonly none: string
    readonly heading: (number: number, material: Material) => string
    readonly places: (material: Material) => string
    readonly how: (material: Material) => string | undefined
    readonly amount: (material: Material, units: Units) => string
    /** For who watches; empty where nobody knows. */
    readonly shownAmount: (material: Material, units: Units) => string
    /** How each amount that nobody wrote down was reckoned. */
    readonly estimates: (material: Material, units: Units) => readonly string[]
    /** What would let the rest be reckoned; empty where nothing would. */
    readonly needs: (material: Material) => string
    readonly cost: (money: string, complete: boolean) => string
    readonly sandedHeading: string
    readonly sanded: (sanded: SandedPlaces) => string
    readonly total: (money: string, complete: boolean) => string
    readonly reckonedCost: (money: string) => string
    readonly reckonedTotal: (money: string) => string
    readonly left: (stock: Stock, units: Units) => string
    /** What the mark behind a number of packs means, said once. */
    readonly packsSupposed: string
    readonly finishesTitle: (job: string) => string
    readonly noFinish: string
    readonly finishPlaces: (finish: SurfaceFinish) => string
    readonly layer: (layer: FinishLayer) => string
    readonly touchUp: (finish: SurfaceFinish) => string
    readonly touchUpCare: (workshop: string) => string
  }
}
