import { archiveNames, originalIn } from '#core/backup/archive-names'
import { BackupFlaw } from '#services/backup/backup-flaw'
import type { Archive } from '#services/backup/open-archive'
import { type Manifest, manifest } from '#services/backup/schema'

/** A million photos take some 150 MB. */
const mostBytes = 256_000_000

/**
 * What an archive says that it holds, which is exactly what it does hold.
 *
 * @throws BackupFlaw when it is no backup, or a file is missing, too many, or of another size
 */
export async function readManifest(archive: Archive): Promise<Manifest> {
  const size = archive.sizes.get(archiveNames.manifest)
  if (size === undefined) {
    throw new BackupFlaw('It is no backup of Coatbook: it has no manifest.')
  }
  if (size > mostBytes) throw new BackupFlaw('Its manifest is too large.')
  const chunks: Uint8Array[] = []
  for await (const chunk of archive.read(archiveNames.manifest)) {
    chunks.push(chunk)
  }
  const found = parse(Buffer.concat(chunks).toString('utf8'))
  const named = new Set<string>([archiveNames.manifest])
  for (const file of found.files) {
    if (named.has(file.name)) {
      throw new BackupFlaw(`Its manifest names ${file.name} twice.`)
    }
    named.add(file.name)
    if (archive.sizes.get(file.name) !== file.byteLength) {
      throw new BackupFlaw(
        `${file.name} is missing from it, or of another size than its manifest says.`,
      )
    }
    const original = originalIn(file.name)
    if (original !== undefined && original !== file.sha256) {
      throw new BackupFlaw(
        `${file.name} is called by another hash than its own.`,
      )
    }
  }
  for (const name of archive.sizes.keys()) {
    if (!named.has(name)) {
      throw new BackupFlaw(
        `It holds ${name}, which its manifest does not name.`,
      )
    }
  }
  if (!named.has(archiveNames.journal)) {
    throw new BackupFlaw(`It has no ${archiveNames.journal}.`)
  }
  return found
}

function parse(text: string): Manifest {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    throw new BackupFlaw('Its manifest is no JSON.')
  }
  if (isNewer(json)) {
    throw new BackupFlaw(
      'It was made by a newer Coatbook. Install that one first.',
    )
  }
  const parsed = manifest.safeParse(json)
  if (parsed.success) return parsed.data
  const path = parsed.error.issues[0]?.path.join('.') ?? ''
  throw new BackupFlaw(
    `Its manifest cannot be read${path === '' ? '' : ` (at ${path})`}.`,
  )
}

function isNewer(json: unknown): boolean {
  if (typeof json !== 'object' || json === null) return false
  const version: unknown = Reflect.get(json, 'version')
  return (
    Reflect.get(json, 'format') === 'coatbook-backup' &&
    typeof version === 'number' &&
    version > 1
  )
}
