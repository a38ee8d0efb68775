import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs'
import path from 'node:path'

/** An open database, as far as it is copied. */
type Source = {
  readonly prepare: (sql: string) => { readonly run: (to: string) => unknown }
}

const unfinishedEnding = '.unfinished'

/**
 * Copies an open database into a file that is there whole or not at all: flushed before it gets its name. Unlike a copy of
 * the file, it holds what is still in the log.
 */
export function copyDatabase(source: Source, to: string): void {
  const unfinished = `${to}${unfinishedEnding}`
  try {
    source.prepare('VACUUM INTO ?').run(unfinished)
    // Opened for writing: some systems flush nothing else.
    const file = openSync(unfinished, 'r+')
    try {
      fsyncSync(file)
    } finally {
      closeSync(file)
    }
    renameSync(unfinished, to)
  } catch (error) {
    rmSync(unfinished, { force: true })
    throw error
  }
}

/** Removes what a program that was ended while it copied has left in a folder. */
export function removeUnfinishedCopies(folder: string): void {
  if (!existsSync(folder)) return
  for (const name of readdirSync(folder)) {
    if (!name.includes(unfinishedEnding)) continue
    rmSync(path.join(folder, name), { force: true })
  }
}
