import 'server-only'
import { randomUUID } from 'node:crypto'
import { mkdir, open, rename, rm } from 'node:fs/promises'
import path from 'node:path'

/**
 * Writes a file that is there whole or not at all: flushed before it gets its name. Folders are made as needed.
 *
 * @param unfinished a folder on the same file system for what is not whole yet; emptied at each start
 */
export async function writeWhole(
  file: string,
  bytes: Buffer,
  unfinished: string,
): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true })
  await mkdir(unfinished, { recursive: true })
  const temporary = path.join(unfinished, randomUUID())
  try {
    const handle = await open(temporary, 'wx')
    try {
      await handle.writeFile(bytes)
      // Without it a power cut could leave an empty file under the name.
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(temporary, file)
  } catch (error) {
    await rm(temporary, { force: true })
    throw error
  }
}
