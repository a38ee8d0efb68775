/** The files of a backup besides the originals. */
export const archiveNames = {
  readMe: 'READ-ME.txt',
  manifest: 'manifest.json',
  journal: 'journal.json',
  schema: 'journal.schema.json',
} as const

const fixedNames: readonly string[] = Object.values(archiveNames)

const endings: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/tiff': 'tif',
  'image/avif': 'avif',
  'image/heic': 'heic',
  'image/heif': 'heif',
}

/** What an original is called in a backup: by its hash, with an ending that other programs know it by. */
export function originalName(sha256: string, mediaType: string): string {
  return `originals/${sha256.slice(0, 2)}/${sha256}.${endings[mediaType] ?? 'bin'}`
}

/** The hash of the original that a file of a backup is called by; undefined for any other name. */
export function originalIn(name: string): string | undefined {
  const [, folder = '', sha256] =
    /^originals\/([0-9a-f]{2})\/([0-9a-f]{64})\.[a-z]{3,4}$/.exec(name) ?? []
  return sha256?.startsWith(folder) === true ? sha256 : undefined
}

/** Whether a backup has files by this name. No name that leads out of a folder is among them. */
export function isArchiveName(name: string): boolean {
  return fixedNames.includes(name) || originalIn(name) !== undefined
}
