import 'server-only'
import { open } from 'node:fs/promises'

/** Flushes the entries of a folder, so that a file which was renamed into it outlives a power cut. */
export async function flushFolder(folder: string): Promise<void> {
  // Windows cannot open a folder to flush it, and keeps its entries without being asked.
  if (process.platform === 'win32') return
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
