import type { ColourName } from '#core/colour/colour-names'
import { commonCrop } from '#core/geometry/common-crop'
import type { Homography } from '#core/geometry/homography'
import type {
  Journal,
  Photo,
  Piece,
  Step,
  WorkshopSettings,
} from '#core/journal/journal'
import { listFinishes } from '#core/materials/list-finishes'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { freeSlug } from '#core/portfolio/piece-slug'
import {
  type ShownFinish,
  type ShownPicture,
  type ShownPiece,
  pictureSides,
  shownFinishes,
} from '#core/portfolio/shown-piece'
import type { Size } from '#core/sheets/largest-crop'
import { appearanceOf } from '#core/write-ups/appearance'
import { describePhoto } from '#core/write-ups/describe-photo'
import { english } from '#core/write-ups/english'
import { productAndPurpose } from '#core/write-ups/english-products'
import {
  capitalised,
  countOf,
  doneWords,
  isRefit,
  listOf,
  ordinalOf,
} from '#core/write-ups/english-words'
import { plainText } from '#core/write-ups/plain-text'
import { type Layer, surfaceWork } from '#core/write-ups/surface-work'

/** What the owner wants to be seen of a piece. */
export type PieceChoice = {
  readonly title: string
  /** Paragraphs, with empty lines between them. */
  readonly story: string
  /** Ids of pairs, photos and steps, of which those are shown that are still there. */
  readonly pairs: readonly string[]
  readonly photos: readonly string[]
  readonly steps: readonly string[]
  readonly finish: boolean
  readonly materials: boolean
  readonly size: boolean
  readonly price: 'none' | 'asking' | 'sold'
  readonly contact: boolean
  /** Undefined: as the pictures tell. */
  readonly colours?: readonly ColourName[]
}

/** A pair that can be chosen. */
export type ChoosablePair = {
  readonly id: string
  readonly before: string
  readonly after: string
  readonly view?: string
  /** From upright pixels of the after to those of the before, where they lie on each other. */
  readonly homography?: Homography
}

/** What a picture is made from. */
export type PictureOrigin =
  | { readonly of: 'photo'; readonly photo: string }
  | {
      readonly of: 'pair'
      readonly pair: string
      readonly before: string
      readonly after: string
      readonly side: 'before' | 'after'
    }

/** What visitors will see of a piece, and what each picture is made from, which they will not. */
export type PieceToShow = {
  readonly shown: ShownPiece
  readonly origins: ReadonlyMap<string, PictureOrigin>
}

/** The photos of a job that are of a piece: those that show a surface of it, and those that nobody said what they show. */
export function photosOfPiece(
  { photos }: Journal,
  { surfaces }: Piece,
): readonly Photo[] {
  return photos.filter(
    ({ surfaceIds }) =>
      surfaceIds.length === 0 ||
      surfaces.some(({ id }) => surfaceIds.includes(id)),
  )
}

/** The steps on a surface of a piece, in the order in which they were done. */
export function stepsOfPiece(
  journal: Journal,
  { surfaces }: Piece,
): readonly Step[] {
  return stepsInOrder(journal)
    .map(({ step }) => step)
    .filter((step) =>
      step.surfaces.some((on) =>
        surfaces.some(({ id }) => id === on.surfaceId),
      ),
    )
}

/** The pairs whose after is of a piece, and both of whose photos are there. */
export function pairsOfPiece<Pair extends ChoosablePair>(
  journal: Journal,
  piece: Piece,
  pairs: readonly Pair[],
): readonly Pair[] {
  const own = new Set(photosOfPiece(journal, piece).map(({ id }) => id))
  const all = new Set(journal.photos.map(({ id }) => id))
  return pairs.filter(({ before, after }) => all.has(before) && own.has(after))
}

/** What is proposed to be shown: the pairs, the photos of after that are in none of them, and how it is finished. */
export function proposedChoice(
  journal: Journal,
  piece: Piece,
  pairs: readonly ChoosablePair[],
): PieceChoice {
  const own = pairsOfPiece(journal, piece, pairs)
  const paired = new Set(own.map(({ after }) => after))
  return {
    title: capitalised(plainText(piece.name)),
    story: '',
    pairs: own.map(({ id }) => id),
    photos: photosOfPiece(journal, piece)
      .filter(({ role, id }) => role === 'after' && !paired.has(id))
      .map(({ id }) => id),
    steps: [],
    finish: true,
    materials: false,
    size: true,
    price: 'none',
    contact: true,
  }
}

/**
 * What visitors will see of a piece: what was chosen and nothing else. Of the journal only the piece itself is told; other
 * pieces of the job, notes, times and costs cannot get in.
 * Colours that the owner does not name are left for the pictures to tell.
 */
export function showPiece({
  journal: whole,
  piece,
  pairs,
  choice,
  settings,
  photoWords = new Map(),
}: {
  readonly journal: Journal
  readonly piece: Piece
  readonly pairs: readonly ChoosablePair[]
  readonly choice: PieceChoice
  readonly settings: WorkshopSettings
  /** What the owner says of photos in other words, by their ids. */
  readonly photoWords?: ReadonlyMap<string, string>
}): PieceToShow {
  // Sentences about this piece name no other, and only chosen steps where its finish is not to be told.
  const journal = {
    ...whole,
    pieces: [piece],
    ...(!choice.finish && {
      products: [],
      steps: whole.steps.filter(({ id }) => choice.steps.includes(id)),
    }),
  }
  const wordsOf = (photo: Photo) =>
    photoWords.get(photo.id) ?? describePhoto(journal, photo)
  const photoOf = (id: string) => whole.photos.find((photo) => photo.id === id)
  const origins = new Map<string, PictureOrigin>()
  const named = (
    words: string,
    origin: PictureOrigin,
    told: string,
    size: Size,
  ): ShownPicture => {
    const name = freeSlug(words, 'picture', new Set(origins.keys()))
    origins.set(name, origin)
    return { name, words: told, ...size }
  }
  const photoPicture = (photo: Photo, words: string) =>
    named(
      words,
      { of: 'photo', photo: photo.id },
      wordsOf(photo),
      within(photo),
    )

  const shownPairs = pairsOfPiece(journal, piece, pairs)
    .filter(({ id }) => choice.pairs.includes(id))
    .flatMap((pair) => {
      const before = photoOf(pair.before)
      const after = photoOf(pair.after)
      if (before === undefined || after === undefined) return []
      const crop = pair.homography && commonCrop(pair.homography, before, after)
      const view = plainText(pair.view ?? after.view ?? '')
      const picture = (side: 'before' | 'after') => {
        const photo = side === 'before' ? before : after
        const words = `${view} ${side}`
        if (crop === undefined) return photoPicture(photo, words)
        return named(
          words,
          {
            of: 'pair',
            pair: pair.id,
            before: before.id,
            after: after.id,
            side,
          },
          wordsOf(photo),
          within(crop),
        )
      }
      return [
        {
          name: view === '' ? 'Before and after' : capitalised(view),
          before: picture('before'),
          after: picture('after'),
          aligned: crop !== undefined,
        },
      ]
    })
  const gallery = photosOfPiece(whole, piece)
    .filter(({ id }) => choice.photos.includes(id))
    .map((photo) => photoPicture(photo, `${photo.view ?? ''} ${photo.role}`))
  const steps = stepsOfPiece(whole, piece)
    .filter(({ id }) => choice.steps.includes(id))
    .map((step) => {
      const photo = photosOfPiece(whole, piece).findLast(({ id }) =>
        step.photoIds.includes(id),
      )
      const words = stepWords(step, piece)
      return {
        words,
        ...(photo && { picture: photoPicture(photo, step.kind) }),
      }
    })

  const works = surfaceWork(journal)
  const appearance = appearanceOf(works, [piece])
  const finishes = listFinishes({ ...whole, pieces: [piece] })
  const price = priceOf(journal, choice, settings)
  const finished = finishes.length > 0
  return {
    shown: {
      title: plainText(choice.title) || capitalised(plainText(piece.name)),
      kind: plainText(piece.kind).toLowerCase(),
      story: paragraphsOf(choice.story),
      pairs: shownPairs,
      gallery,
      steps,
      ...(choice.finish &&
        finished && { finish: english.summary([piece], appearance) }),
      finishes: choice.finish
        ? finishesOf(works.flatMap(({ layers }) => layers))
        : [],
      colours: choice.colours ?? [],
      materials: choice.materials ? materialLines(finishes) : [],
      ...(choice.size &&
        isMeasured(piece) && {
          size: english.size([piece], [piece], settings.units),
        }),
      ...(price && { price }),
      contact: choice.contact,
    },
    origins,
  }
}

/** The paragraphs of a text, by the empty lines between them. */
export function paragraphsOf(text: string): readonly string[] {
  return text
    .split(/\n\s*\n/)
    .map(plainText)
    .filter((paragraph) => paragraph !== '')
}

/** A step as visitors read it: `Painted, coat 2: body and doors`. */
export function stepWords(step: Step, { surfaces }: Piece): string {
  const own = step.surfaces.filter((on) =>
    surfaces.some(({ id }) => id === on.surfaceId),
  )
  const coats = new Set(own.map(({ coat }) => coat))
  const [coat] = coats
  const numbered =
    coats.size === 1 && coat !== undefined ? `, ${ordinalOf(coat)} coat` : ''
  const names = surfaces
    .filter(({ id }) => own.some((on) => on.surfaceId === id))
    .map(({ name }) => plainText(name))
  const places = listOf(names.filter((name) => name !== step.kind))
  const done = isRefit(step.kind, names) ? 'Refitted' : doneWords[step.kind]
  return `${done}${numbered}${places === '' ? '' : `: ${places}`}`
}

const finishOf: Readonly<Partial<Record<Layer['kind'], ShownFinish>>> = {
  painted: 'painted',
  stained: 'stained',
  glazed: 'glazed',
  sealed: 'clear coated',
  clear: 'clear coated',
  waxed: 'waxed',
}

function finishesOf(layers: readonly Layer[]): readonly ShownFinish[] {
  const found = new Set(layers.flatMap(({ kind }) => finishOf[kind] ?? []))
  return shownFinishes.filter((finish) => found.has(finish))
}

/** Each product once, with what it was for and its most coats; nothing of what it cost. */
function materialLines(
  finishes: ReturnType<typeof listFinishes>,
): readonly string[] {
  const coats = new Map<string, number>()
  for (const { layers } of finishes) {
    for (const layer of layers) {
      const line = productAndPurpose(layer.name, [layer.purpose])
      coats.set(line, Math.max(layer.coats, coats.get(line) ?? 0))
    }
  }
  return [...coats].map(
    ([line, count]) =>
      `${line}: ${countOf(count)} ${count === 1 ? 'coat' : 'coats'}`,
  )
}

function priceOf(
  { job }: Journal,
  { price }: PieceChoice,
  { currency }: WorkshopSettings,
): ShownPiece['price'] {
  // What is sold is not offered any more, whatever was chosen before.
  if (price === 'sold' || (price === 'asking' && job.soldAt !== undefined)) {
    return { state: 'sold' }
  }
  return price === 'asking' && job.askingPriceMinor !== undefined
    ? { state: 'asking', minor: job.askingPriceMinor, currency }
    : undefined
}

function isMeasured(piece: Piece): boolean {
  return [
    piece.widthMillimetres,
    piece.depthMillimetres,
    piece.heightMillimetres,
  ].some((side) => side !== undefined)
}

/** The size of a picture in its larger file: never larger than it is. */
function within({ width, height }: Size): Size {
  const scale = Math.min(1, Math.max(...pictureSides) / Math.max(width, height))
  return {
    width: Math.max(1, Math.floor(width * scale)),
    height: Math.max(1, Math.floor(height * scale)),
  }
}
