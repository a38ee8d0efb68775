import 'server-only'
import { mkdir, readdir, stat } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import path from 'node:path'
import { type Result, ok, refused } from '#core/result'
import { newId } from '#services/database/new-id'
import { database, openDataFolder } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import {
  type RenditionName,
  renditionNames,
  renditionSizes,
} from '#core/photos/rendition-sizes'
import { DecoderEnded } from '#services/renditions/decode-heic'
import {
  type RenditionPlace,
  makeRenditions,
} from '#services/renditions/make-renditions'
import type { OriginalOptions } from '#services/renditions/open-original'
import { openPicture } from '#services/renditions/open-picture'
import {
  type RenditionQueue,
  renditionQueue,
} from '#services/renditions/rendition-queue'
import type { Looks } from '#services/renditions/looks-of'
import { recordLooks } from '#services/renditions/record-looks'
import { warnOfDamage } from '#services/renditions/warn-of-damage'

/** Part of a rendition's place, raised when renditions are made in another way, so that old ones are made again. */
const edition = '1'
/** Two where the machine can: one core is left waiting otherwise, and a decoded photo takes some 40 MB. */
export const renditionsAtOnce = Math.min(2, availableParallelism())

// Kept on the global object: a development server loads modules anew, and two queues would do the work twice.
const kept = globalThis as typeof globalThis & {
  coatbookRenditions?: RenditionQueue
}

/** A rendition on disk. */
export type Rendition = { readonly path: string; readonly byteLength: number }

/** Puts originals in line to have their renditions made; returns at once, before any is made. */
export async function queueRenditions(
  hashes: readonly string[],
  quarterTurns = 0,
): Promise<void> {
  for (const sha256 of new Set(hashes)) {
    const work = await workOn(sha256, quarterTurns)
    queue()
      .add(keyOf(sha256, quarterTurns), work, false)
      .catch((error: unknown) => {
        // Nobody waits for it: the photo is kept, and its rendition is tried again when somebody asks for it.
        console.error(`No renditions of ${sha256} could be made.`, error)
      })
  }
}

/**
 * A rendition of an original, made now when it is not there yet or has been lost.
 *
 * @param quarterTurns how often its owner turned it by hand, clockwise: 0 to 3
 * @returns refused when the original is missing from the store
 */
export async function readRendition(
  sha256: string,
  name: RenditionName,
  quarterTurns = 0,
): Promise<Result<Rendition>> {
  const { file } = await renditionPlace(sha256, quarterTurns)
  const found = await present(file(name))
  if (found !== undefined) return ok(found)

  const store = await openPhotoStore()
  if ((await store.stat(sha256)) === undefined) {
    return refused({
      kind: 'not-found',
      detail:
        'The photo itself is missing from the data folder. Bring it back from a backup.',
    })
  }
  const work = await workOn(sha256, quarterTurns)
  await queue().add(keyOf(sha256, quarterTurns), work, true)
  const made = await present(file(name))
  if (made === undefined) {
    throw new Error(`the rendition ${file(name)} was not made`)
  }
  return ok(made)
}

/**
 * Makes the renditions of a file that is not kept yet, where only making them tells whether it can be shown.
 *
 * @returns upright pixels of the picture as it was decoded, where it is not larger than its largest rendition; undefined
 *   for a larger one
 * @throws Error when it is damaged or incomplete
 */
export async function makeRenditionsAhead(
  sha256: string,
  file: string,
): Promise<{ readonly width: number; readonly height: number } | undefined> {
  const place = await renditionPlace(sha256, 0)
  await queue().add(
    keyOf(sha256, 0),
    async () => {
      await makeMissing(file, place)
    },
    true,
  )
  const { width, height } = await openPicture(place.file('zoom')).metadata()
  return Math.max(width, height) < renditionSizes.zoom
    ? { width, height }
    : undefined
}

/**
 * Does other work on decoded photos in its turn among the renditions, before those that nobody waits for: however many
 * ask at once, no more photos are decoded than memory is there for. Such work must not itself wait for a rendition, nor
 * for anything that waits for its own turn: it would hold the place that the other needs.
 *
 * @param urgent whether somebody waits for it
 * @throws what the work throws
 */
export function inTurn<T>(work: () => Promise<T>, urgent = true): Promise<T> {
  return new Promise((resolve, reject) => {
    void queue().add(
      `other work ${newId()}`,
      () => work().then(resolve, reject),
      urgent,
    )
  })
}

/**
 * Puts in line every original that has not all its renditions or whose colours are not known: those that the program had
 * not finished when it ended, and those that were lost since. Resolves before they are made.
 *
 * @returns how many there are
 */
export async function resumeRenditions(): Promise<number> {
  const db = await database()
  const { renditions } = await openDataFolder()
  const made = await namesIn(path.join(renditions, edition))
  const rows = await db.original.findMany({
    select: { sha256: true, colours: true },
  })
  const unfinished = rows
    .filter(
      ({ sha256, colours }) =>
        colours === null ||
        renditionNames.some(
          (name) => !made.has(renditionFile(sha256, name, 0)),
        ),
    )
    .map((row) => row.sha256)
  await queueRenditions(unfinished)
  return unfinished.length
}

async function namesIn(folder: string): Promise<ReadonlySet<string>> {
  await mkdir(folder, { recursive: true })
  const files = await readdir(folder, { recursive: true })
  return new Set(files.map((file) => path.basename(file)))
}

/** Of how many photos the renditions are being made or waiting to be. */
export function renditionsWaiting(): number {
  return kept.coatbookRenditions?.length() ?? 0
}

/** Resolves when no rendition is being made or waiting to be. */
export async function renditionsIdle(): Promise<void> {
  await kept.coatbookRenditions?.idle()
}

function queue(): RenditionQueue {
  kept.coatbookRenditions ??= renditionQueue(renditionsAtOnce)
  return kept.coatbookRenditions
}

function keyOf(sha256: string, quarterTurns: number): string {
  return `${sha256}-${quarterTurns}`
}

/** Where the renditions of an original belong. */
export async function renditionPlace(
  sha256: string,
  quarterTurns: number,
): Promise<RenditionPlace> {
  const { folder, unfinished } = await renditionFolder(sha256)
  return {
    file: (name) =>
      path.join(folder, renditionFile(sha256, name, quarterTurns)),
    unfinished,
  }
}

/**
 * The folder of all that is made of an original, in files whose names begin with its hash: they are removed with it. And
 * one for what is not whole yet.
 */
export async function renditionFolder(
  sha256: string,
): Promise<{ readonly folder: string; readonly unfinished: string }> {
  const { renditions, arriving } = await openDataFolder()
  return {
    folder: path.join(renditions, edition, sha256.slice(0, 2)),
    unfinished: arriving,
  }
}

function renditionFile(
  sha256: string,
  name: RenditionName,
  quarterTurns: number,
): string {
  const turned = quarterTurns === 0 ? '' : `-turned-${quarterTurns}`
  return `${sha256}-${name}${turned}.webp`
}

async function workOn(
  sha256: string,
  quarterTurns: number,
): Promise<() => Promise<void>> {
  const place = await renditionPlace(sha256, quarterTurns)
  const store = await openPhotoStore()
  const original = store.path(sha256)
  return async () => {
    let looks: Looks | undefined
    try {
      looks = await makeMissing(original, place, { quarterTurns })
    } catch (error) {
      // Which tells nothing about the picture.
      if (error instanceof DecoderEnded) throw error
      // Its photo may be gone for good since it was put in line.
      if (!(await isOnRecord(sha256))) return
      // What can be shown of a damaged picture is shown, and its owner told; an original that cannot be decoded at all
      // is an error for whoever asked.
      looks = await makeMissing(original, place, {
        quarterTurns,
        failOn: 'none',
      })
      await warnOfDamage(sha256)
    }
    if (quarterTurns === 0)
      await recordLooks(sha256, looks, place.file('screen'))
  }
}

/** Whether any photo may be looked at with an original: of one that is released nothing is made any more. */
export async function isOnRecord(sha256: string): Promise<boolean> {
  const db = await database()
  return (await db.original.count({ where: { sha256 } })) > 0
}

/** @returns what the picture looks like, where any rendition had to be made */
async function makeMissing(
  file: string,
  place: RenditionPlace,
  options: OriginalOptions = {},
): Promise<Looks | undefined> {
  const there = await Promise.all(
    renditionNames.map((name) => present(place.file(name))),
  )
  return there.includes(undefined)
    ? makeRenditions(file, place, options)
    : undefined
}

/** A file that is there and holds something: an empty one is what a power cut leaves. */
async function present(file: string): Promise<Rendition | undefined> {
  try {
    const { size } = await stat(file)
    return size > 0 ? { path: file, byteLength: size } : undefined
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') {
      return undefined
    }
    throw error
  }
}
