import 'server-only'
import type { Journal } from '#core/journal/journal'
import { photoRoles } from '#core/journal/vocabulary'
import { isSurePair } from '#core/pairs/pair-state'
import { turnedSize } from '#core/photos/turned-size'
import { type Refusal, type Result, ok, refused } from '#core/result'
import { type SheetPictures, mostPairs } from '#core/sheets/arrange-pictures'
import type { Size } from '#core/sheets/largest-crop'
import type { SheetLight } from '#core/sheets/sheet-design'
import { type SheetPair, sheetPair } from '#core/sheets/sheet-pair'
import {
  evenly,
  mostInStory,
  stepPhotos,
  storyPhotos,
} from '#core/sheets/story-photos'
import { describePair } from '#core/write-ups/describe-pair'
import { english } from '#core/write-ups/english'
import {
  alternativeOfPhoto,
  ownWordsOfPhotos,
} from '#core/write-ups/write-photo-words'
import { pictureOf, pixelsOf } from '#services/alignment/colour-pixels'
import {
  type AlignedPictures,
  alignedFrame,
  alignedPictures,
} from '#services/alignment/aligned-picture'
import {
  pairLight,
  relit,
  withMatchedLight,
} from '#services/alignment/match-pair-light'
import { notInBin } from '#services/bin/bin'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { noJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import {
  type PairSide,
  readKeptPicture,
} from '#services/pairs/kept-pair-pictures'
import {
  type AcceptedPair,
  readAcceptedPair,
  readPairs,
  readSeparated,
} from '#services/pairs/pairs'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openOriginal } from '#services/renditions/open-original'
import { openPicture } from '#services/renditions/open-picture'
import type { SheetPicture } from '#services/sheets/sheet-picture'
import { readEdits } from '#services/write-ups/read-edits'

/** What a sheet shows: one pair, several pairs, a story in a few steps, or all steps equally large. */
export const sheetSubjects = ['pair', 'grid', 'story', 'steps'] as const
export type SheetSubject = (typeof sheetSubjects)[number]

/** The photos that a sheet should show, by their ids; else those that show the job best. */
export type ChosenPhotos = {
  readonly before?: string | undefined
  readonly after?: string | undefined
  /** One pair where absent. */
  readonly show?: SheetSubject | undefined
  /** Of a grid: its pairs, by their ids. */
  readonly pairs?: readonly string[] | undefined
  /** Of a story: its photos between before and after, in their order. */
  readonly photos?: readonly string[] | undefined
}

/** What a sheet shows of a job. */
export type SheetContent = {
  readonly journal: Journal
  readonly layout: (pictures: readonly SheetPicture[]) => SheetPictures
  /**
   * Its pictures, in the order of the layout.
   *
   * @param light of the afters whose pair can be laid on each other; all others stay as taken
   * @param isGlance whether it is to be looked at and no more: what is kept of a pair will do
   */
  readonly open: (
    light: SheetLight,
    isGlance?: boolean,
  ) => Promise<readonly SheetPicture[]>
  /** Text alternatives, one for each picture; empty for one that an earlier one speaks for. */
  readonly alternatives: readonly string[]
}

/**
 * What is shown of a job: two photos, with their alignment where there is one; or several such pairs; or the story of the
 * work between them.
 *
 * @returns refused when there is no such job, a chosen photo is not in it, or it has no pair of photos yet
 */
export async function readSheetContent(
  jobId: string,
  chosen: ChosenPhotos,
): Promise<Result<SheetContent>> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return noJob
  const photos = await readPhotos(jobId)
  const pair = await choosePair(jobId, photos, chosen)
  if (!pair.ok) return pair
  switch (chosen.show ?? 'pair') {
    case 'pair':
      return ok(await pairsContent(journal, [pair.value]))
    case 'grid': {
      const pairs = await gridPairs(jobId, photos, pair.value, chosen.pairs)
      return pairs.ok ? ok(await pairsContent(journal, pairs.value)) : pairs
    }
    case 'story':
    case 'steps':
      return storyContent(
        journal,
        photos,
        pair.value,
        chosen,
        ownWordsOfPhotos(await readEdits(jobId)),
      )
  }
}

async function pairsContent(
  journal: Journal,
  pairs: readonly SheetPair<SheetPhoto>[],
): Promise<SheetContent> {
  const halves = await Promise.all(
    pairs.map(async (pair) => ({
      pair,
      accepted: await readAcceptedPair(
        journal.job.id,
        pair.before.id,
        pair.after.id,
      ),
    })),
  )
  return {
    journal,
    layout: asPairs,
    open: (light, isGlance = false) =>
      Promise.resolve(
        halves.flatMap(({ pair, accepted }) =>
          halvesOf(pair, accepted, light, isGlance),
        ),
      ),
    alternatives: pairs.flatMap((pair) => [alternativeOf(journal, pair), '']),
  }
}

/** The pairs of a grid: those that were chosen, else up to six that are known to belong together, the best first. */
async function gridPairs(
  jobId: string,
  photos: readonly SheetPhoto[],
  best: SheetPair<SheetPhoto>,
  chosen: readonly string[] | undefined,
): Promise<Result<readonly SheetPair<SheetPhoto>[]>> {
  const there = await readPairs(jobId)
  const opened = (ids: { readonly before: string; readonly after: string }) => {
    const before = photos.find(({ id }) => id === ids.before)
    const after = photos.find(({ id }) => id === ids.after)
    return before === undefined || after === undefined
      ? []
      : [{ before, after }]
  }
  if (chosen !== undefined && chosen.length > 0) {
    const named = chosen.map((id) => there.find((pair) => pair.id === id))
    const pairs = named.flatMap((pair) =>
      pair === undefined ? [] : opened(pair),
    )
    if (pairs.length < chosen.length || pairs.length > mostPairs) {
      return refused({
        kind: 'invalid',
        detail: `Choose up to ${mostPairs} pairs of this job.`,
      })
    }
    return ok(pairs)
  }
  const others = there
    .filter(isSurePair)
    .flatMap(opened)
    .filter(
      ({ before, after }) =>
        before.id !== best.before.id && after.id !== best.after.id,
    )
  return ok([best, ...others].slice(0, mostPairs))
}

/** Before, some or all steps, and after; each photo as it was taken, cut alike, but for the light of the after. */
function storyContent(
  journal: Journal,
  photos: readonly SheetPhoto[],
  { before, after }: SheetPair<SheetPhoto>,
  { show, photos: chosen = [] }: ChosenPhotos,
  ownWords: ReadonlyMap<string, string>,
): Result<SheetContent> {
  const isEqual = show === 'steps'
  const proposed = isEqual
    ? evenly(stepPhotos(journal, before), mostInStory - 2)
    : storyPhotos(journal, before, storySteps)
  const ids = chosen.length > 0 ? chosen : proposed.map(({ photo }) => photo.id)
  const middle = ids.flatMap((id) => photos.find((one) => one.id === id) ?? [])
  if (middle.length < ids.length || middle.length > mostInStory - 2) {
    return refused({
      kind: 'invalid',
      detail: `Choose up to ${mostInStory - 2} photos of this job.`,
    })
  }
  if (middle.length === 0) {
    return refused({
      kind: 'conflict',
      detail: 'No photo shows a step yet. Place some photos on their steps.',
    })
  }
  const told = [
    { photo: before, caption: english.sheet.before },
    ...middle.map((photo) => ({ photo, caption: stepCaption(journal, photo) })),
    { photo: after, caption: english.sheet.after },
  ]
  return ok({
    journal,
    layout: (pictures) => ({
      kind: 'story',
      pictures: pictures.map(({ size }) => size),
      isEqual,
    }),
    open: async (light) => {
      const pictures = told.map(({ photo, caption }) => asItIs(photo, caption))
      const last = await inLight(journal.job.id, before, after, light)
      return last === undefined ? pictures : [...pictures.slice(0, -1), last]
    },
    alternatives: told.map(({ photo }) => {
      const known = journal.photos.find(({ id }) => id === photo.id)
      return known === undefined
        ? ''
        : alternativeOfPhoto(journal, known, ownWords)
    }),
  })
}

const storySteps = 3
/** The longer side in pixels of a pair of which only the light is told. */
const lightSide = 480

/** The after of a story in the light of its before; undefined where it stays as taken. */
async function inLight(
  jobId: string,
  before: SheetPhoto,
  after: SheetPhoto,
  light: SheetLight,
): Promise<SheetPicture | undefined> {
  if (light === 'as-taken') return undefined
  const accepted = await readAcceptedPair(jobId, before.id, after.id)
  if (accepted === undefined) return undefined
  // Told from the two laid on each other, as for their pair; the after itself keeps its own frame.
  const found = await pairLight(
    await alignedAtHand(accepted, lightSide, 'as-taken'),
  )
  if (!found.accepted) return undefined
  const whole = asItIs(after, english.sheet.after)
  return {
    ...whole,
    open: async (shown) => {
      const picture = await whole.open(shown)
      const pixels = await pixelsOf(picture.resize({ ...shown, fit: 'fill' }))
      return pictureOf(relit(pixels, found.gains))
    },
  }
}

function stepCaption(journal: Journal, { id }: SheetPhoto): string {
  const photo = journal.photos.find((one) => one.id === id)
  const step = journal.steps.find((one) => one.id === photo?.stepId)
  if (step === undefined) return photo?.view ?? ''
  const coats = step.surfaces.flatMap(({ coat }) => coat ?? [])
  return english.sheet.step(
    step.kind,
    coats.length === 0 ? undefined : Math.max(...coats),
  )
}

function asPairs(pictures: readonly SheetPicture[]): SheetPictures {
  const pairs = pictures.flatMap((before, index) => {
    const after = pictures[index + 1]
    return index % 2 === 0 && after !== undefined
      ? [[before.size, after.size] as const]
      : []
  })
  return { kind: 'pairs', pairs }
}

function alternativeOf(journal: Journal, pair: SheetPair<SheetPhoto>): string {
  const photo = (id: string) => journal.photos.find((one) => one.id === id)
  const before = photo(pair.before.id)
  const after = photo(pair.after.id)
  return before === undefined || after === undefined
    ? ''
    : describePair({ journal, before, after })
}

async function choosePair(
  jobId: string,
  photos: readonly SheetPhoto[],
  chosen: ChosenPhotos,
): Promise<Result<SheetPair<SheetPhoto>>> {
  for (const id of [chosen.before, chosen.after]) {
    if (id !== undefined && !photos.some((photo) => photo.id === id)) {
      return refused({
        kind: 'invalid',
        detail: 'This job has no such photo. Choose among its photos.',
      })
    }
  }
  const known = (await readPairs(jobId)).filter(isSurePair)
  const separated = await readSeparated(jobId)
  const pair = sheetPair(photos, chosen, known, separated)
  return pair === undefined ? refused(noPair(photos)) : ok(pair)
}

/** Two photos as they are, or laid on each other, which is done as large as they are shown. */
function halvesOf(
  pair: SheetPair<SheetPhoto>,
  accepted: AcceptedPair | undefined,
  light: SheetLight,
  isGlance: boolean,
): readonly SheetPicture[] {
  const { before, after } = english.sheet
  if (accepted === undefined) {
    return [asItIs(pair.before, before), asItIs(pair.after, after)]
  }
  const { width, height } = alignedFrame(
    accepted.before.size,
    accepted.after.size,
    accepted.homography,
  )
  const half = (side: PairSide, caption: string) => ({
    size: { width, height },
    caption,
    open: async (shown: Size) => {
      const there =
        isGlance && light === 'as-taken'
          ? await readKeptPicture(accepted, side)
          : undefined
      return there === undefined
        ? pictureOf(
            (await alignedAtHand(accepted, sideFor(shown), light))[side],
          )
        : openPicture(there)
    },
  })
  return [half('before', before), half('after', after)]
}

/** A pair is laid at least as large as it is shown, in steps of so many pixels of its longer side: designs then share it. */
const sideStep = 120
/** And at most so large. */
const mostSide = 2400

function sideFor({ width, height }: Size): number {
  const steps = Math.ceil(Math.max(width, height) / sideStep)
  return Math.min(mostSide, steps * sideStep)
}

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookSheetPairs?: Map<string, AtHand>
}
/** A pair laid on each other, or about to be, with at most so many pixels on its longer side. */
type AtHand = {
  readonly pair: string
  readonly side: number
  readonly made: Promise<AlignedPictures>
}
/** Whoever chooses a design asks for the same pairs again and again. A pair takes about 10 MB. */
const keptAtMost = 6

/** Forgets which pairs were laid on each other a moment ago. */
export function forgetPairsAtHand(): void {
  kept.coatbookSheetPairs?.clear()
}

/** The two of a pair laid on each other, from a moment ago where they are still there, and large enough. */
function alignedAtHand(
  { before, after, homography }: AcceptedPair,
  side: number,
  light: SheetLight,
): Promise<AlignedPictures> {
  const pictures = (kept.coatbookSheetPairs ??= new Map<string, AtHand>())
  const pair = JSON.stringify([before, after, homography, light])
  const known = [...pictures.values()]
    .filter((one) => one.pair === pair && one.side >= side)
    .toSorted((one, other) => one.side - other.side)[0]
  if (known !== undefined) return known.made
  const key = `${pair} ${side}`
  const made =
    light === 'matched'
      ? alignedAtHand({ before, after, homography }, side, 'as-taken').then(
          withMatchedLight,
        )
      : alignedPictures(before, after, homography, side)
  made.catch(() => pictures.delete(key))
  pictures.set(key, { pair, side, made })
  for (const oldest of [...pictures.keys()].slice(0, -keptAtMost)) {
    pictures.delete(oldest)
  }
  return made
}

function asItIs(photo: SheetPhoto, caption: string): SheetPicture {
  return {
    size: photo.size,
    caption,
    open: async () =>
      openOriginal((await openPhotoStore()).path(photo.sha256), {
        failOn: 'error',
        quarterTurns: photo.quarterTurns,
      }),
  }
}

type SheetPhoto = Awaited<ReturnType<typeof readPhotos>>[number]

async function readPhotos(jobId: string) {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { jobId, ...notInBin },
    orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
    select: {
      id: true,
      role: true,
      view: true,
      sha256: true,
      takenAt: true,
      takenEarliest: true,
      takenLatest: true,
      quarterTurns: true,
      original: { select: { width: true, height: true } },
    },
  })
  return rows.map((row) => ({
    id: row.id,
    role: photoRoles.find((one) => one === row.role) ?? 'progress',
    ...(row.view === null ? {} : { view: row.view }),
    sha256: row.sha256,
    quarterTurns: row.quarterTurns,
    size: turnedSize(row.original, row.quarterTurns),
    taken: {
      earliest: toInstant(row.takenEarliest),
      at: toInstant(row.takenAt),
      latest: toInstant(row.takenLatest),
    },
  }))
}

function noPair(photos: readonly SheetPhoto[]): Refusal {
  const before = photos.some((photo) => photo.role === 'before')
  const after = photos.some((photo) => photo.role === 'after')
  const missing =
    before && after
      ? 'No before and after photo are known to show the same view. Give one of each the same view, such as front, or choose two photos.'
      : before
        ? 'Take an after photo from where a before photo was taken, and give it the same view.'
        : after
          ? 'Mark a photo as before, of the same view as an after photo.'
          : 'Add a before photo and an after photo of the same view, such as front.'
  return {
    kind: 'conflict',
    detail: `There is no pair to show yet. ${missing}`,
  }
}
