import { createHash } from 'node:crypto'
import { existsSync, readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import Database from 'libsql'
import { dataFolder } from '#services/settings/data-folder'
import { type Acknowledged, countLost } from './lost-photos'
import { withComment } from './with-comment'

/** A server that can be killed. */
export type Victim = {
  /** Such as `http://127.0.0.1:3000`. */
  readonly url: string
  /** Ends it as a power cut would end the program: at once, with no word to it. Resolves when it is gone. */
  readonly kill: () => Promise<void>
}

/** What became of the photos. */
export type KillFigures = {
  readonly kills: number
  readonly acknowledged: number
  /** Acknowledged, and not served byte for byte after the restart. */
  readonly lost: number
  /** Records whose original is missing or has other bytes. */
  readonly recordsOfNothing: number
  /** Originals and temporary files that no record names. */
  readonly leftovers: number
}

const phones = 3
/** A round is over after up to so many acknowledgements … */
const mostAcknowledged = 6
/** … and up to so many milliseconds more, so that every moment of an upload is hit. */
const furtherMilliseconds = 60
const sentAgain = 0.1

/**
 * Kills a server at random moments while three phones send it photos, starts it again each time, and looks whether every
 * photo that it acknowledged is there.
 *
 * @param root the data folder that every server serves
 * @param job the job that the photos go to; it exists
 * @param photos some JPEG files to make others from
 */
export async function killUploads(
  root: string,
  job: string,
  kills: number,
  photos: readonly Buffer[],
  start: () => Promise<Victim>,
): Promise<KillFigures> {
  let acknowledged = 0
  let lost = 0
  let before: readonly Acknowledged[] = []
  const all: Acknowledged[] = []
  for (let round = 0; round < kills; round += 1) {
    const victim = await start()
    lost += await countLost(victim.url, before)
    before = await sendUntilKilled(victim, job, photos, round)
    acknowledged += before.length
    all.push(...before)
  }
  const last = await start()
  lost += await countLost(last.url, before)
  // Once more all of them: a later kill must not take what an earlier one left.
  lost += await countLost(last.url, all.slice(0, -before.length || undefined))
  await last.kill()
  return { kills, acknowledged, lost, ...examine(root) }
}

async function sendUntilKilled(
  victim: Victim,
  job: string,
  photos: readonly Buffer[],
  round: number,
): Promise<readonly Acknowledged[]> {
  const acknowledged: Acknowledged[] = []
  let dead = false
  const phone = async (number: number) => {
    for (let count = 0; !dead; count += 1) {
      const again = Math.random() < sentAgain ? 0 : count
      const name = `${String(round)}-${String(number)}-${String(again)}`
      const photo = photos[(number + count) % photos.length]
      if (photo === undefined) throw new Error('there is no photo to send')
      const bytes = withComment(photo, name)
      const id = await send(victim.url, job, name, bytes)
      if (id !== undefined) {
        acknowledged.push({
          id,
          sha256: createHash('sha256').update(bytes).digest('hex'),
        })
      }
    }
  }
  const sending = Array.from({ length: phones }, (_, number) => phone(number))
  const enough = Math.floor(Math.random() * (mostAcknowledged + 1))
  while (acknowledged.length < enough) await wait(1)
  await wait(Math.random() * furtherMilliseconds)
  await victim.kill()
  dead = true
  await Promise.all(sending)
  return acknowledged
}

/** The id of the photo when the server acknowledged it. */
async function send(
  url: string,
  job: string,
  name: string,
  bytes: Buffer,
): Promise<string | undefined> {
  const form = new FormData()
  form.append('file', new Blob([new Uint8Array(bytes)]), `${name}.jpg`)
  try {
    const answer = await fetch(`${url}/api/jobs/${job}/photos`, {
      method: 'POST',
      body: form,
    })
    if (answer.status !== 201) {
      throw new Error(`the server said ${String(answer.status)}`)
    }
    return idIn(await answer.json())
  } catch (error) {
    // Killed in the middle: whatever else it was, it is no acknowledgement.
    if (error instanceof TypeError) return undefined
    throw error
  }
}

function idIn(answer: unknown): string | undefined {
  const photos: unknown =
    typeof answer === 'object' && answer !== null
      ? Reflect.get(answer, 'photos')
      : undefined
  const first: unknown = Array.isArray(photos) ? photos[0] : undefined
  const id: unknown =
    typeof first === 'object' && first !== null
      ? Reflect.get(first, 'id')
      : undefined
  return typeof id === 'string' ? id : undefined
}

/** Looks into the data folder itself, without a word of the program's: records against files. */
function examine(
  root: string,
): Pick<KillFigures, 'recordsOfNothing' | 'leftovers'> {
  const folder = dataFolder(root)
  const database = new Database(folder.database)
  const hashes = column(database, 'SELECT "sha256" FROM "Original"')
  const ofPhotos = column(database, 'SELECT "sha256" FROM "Photo"')
  database.close()
  const known = new Set(hashes)
  const fileOf = (sha256: string) =>
    path.join(folder.originals, sha256.slice(0, 2), sha256)
  const hollow = hashes.filter(
    (sha256) =>
      !existsSync(fileOf(sha256)) ||
      createHash('sha256')
        .update(readFileSync(fileOf(sha256)))
        .digest('hex') !== sha256,
  )
  const orphans = ofPhotos.filter((sha256) => !known.has(sha256))
  const files = filesIn(folder.originals).filter((name) => !known.has(name))
  return {
    recordsOfNothing: hollow.length + orphans.length,
    leftovers: files.length + unfinished(folder.renditions).length,
  }
}

function column(database: Database.Database, sql: string): readonly string[] {
  return database
    .prepare(sql)
    .all()
    .map((row: unknown) =>
      typeof row === 'object' && row !== null
        ? String(Reflect.get(row, 'sha256'))
        : '',
    )
}

function unfinished(folder: string): readonly string[] {
  return filesIn(folder).filter((name) => !name.endsWith('.webp'))
}

function filesIn(folder: string): readonly string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name)
}
