import { readFileSync } from 'node:fs'
import path from 'node:path'

const folder = path.join(import.meta.dirname, '../../prisma/demo/photos/job-a')

/** A photo of the demo's first job as a browser is handed a file. */
export function demoPicture(name: string) {
  return {
    name,
    mimeType: 'image/jpeg',
    buffer: readFileSync(path.join(folder, name)),
  }
}
