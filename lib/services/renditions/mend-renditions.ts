import 'server-only'
import { readdir, rm } from 'node:fs/promises'
import path from 'node:path'
import { openDataFolder } from '#services/database/open-database'
import { renditionNames } from '#core/photos/rendition-sizes'
import { openPicture } from '#services/renditions/open-picture'
import { readRendition, renditionPlace } from '#services/renditions/renditions'

/**
 * Looks whether the renditions of an original are there and can be shown, and makes anew those that are not.
 *
 * @returns how many were made
 * @throws Error when the original itself cannot be shown
 */
export async function mendRenditions(
  sha256: string,
  quarterTurns: number,
): Promise<number> {
  const { file } = await renditionPlace(sha256, quarterTurns)
  let made = 0
  for (const name of renditionNames) {
    if (await isSound(file(name))) continue
    await rm(file(name), { force: true })
    const again = await readRendition(sha256, name, quarterTurns)
    if (!again.ok) throw new Error(again.refusal.detail)
    made += 1
  }
  return made
}

/** Whether a picture that was made can be shown. */
export async function isSound(file: string): Promise<boolean> {
  try {
    await openPicture(file, { failOn: 'warning' }).stats()
    return true
  } catch {
    // Missing or damaged: the same remedy.
    return false
  }
}

/** Removes all renditions of an original. */
export async function removeRenditions(sha256: string): Promise<void> {
  const { file } = await renditionPlace(sha256, 0)
  const folder = path.dirname(file('thumb'))
  // Nothing was made yet where there is no folder.
  const names = await readdir(folder).catch(() => [])
  for (const name of names) {
    if (!name.startsWith(sha256)) continue
    await rm(path.join(folder, name), { force: true })
  }
}

/**
 * Removes the renditions of originals that are no longer known.
 *
 * @returns how many there were
 */
export async function removeStrayRenditions(
  known: ReadonlySet<string>,
): Promise<number> {
  return removeMade((name) => !known.has(name.slice(0, 64)))
}

/**
 * Removes some of all that was made of originals.
 *
 * @param isToGo told the name of a file, which begins with its original's hash, and where it is
 * @returns how many there were
 */
export async function removeMade(
  isToGo: (name: string, file: string) => boolean | Promise<boolean>,
): Promise<number> {
  const { renditions } = await openDataFolder()
  // Nothing was made yet where there is no folder.
  const entries = await readdir(renditions, {
    recursive: true,
    withFileTypes: true,
  }).catch(() => [])
  let removed = 0
  for (const entry of entries) {
    if (!entry.isFile()) continue
    const file = path.join(entry.parentPath, entry.name)
    if (!(await isToGo(entry.name, file))) continue
    await rm(file, { force: true })
    removed += 1
  }
  return removed
}
