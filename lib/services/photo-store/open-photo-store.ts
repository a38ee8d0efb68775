import 'server-only'
import { database, openDataFolder } from '#services/database/open-database'
import { diskPhotoStore } from '#services/photo-store/disk-photo-store'
import type { PhotoStore } from '#services/photo-store/photo-store'

// Kept on the global object, since a development server loads modules anew: a second first use would take away what
// the first one is still receiving.
const kept = globalThis as typeof globalThis & {
  coatbookPhotoStore?:
    { readonly root: string; readonly store: Promise<PhotoStore> } | undefined
}

/**
 * The photo store of the open data folder. Its first use clears away what earlier arrivals left behind: nobody else
 * can be receiving into the folder, because the open database holds its lock.
 */
export async function openPhotoStore(): Promise<PhotoStore> {
  const folder = await openDataFolder()
  if (kept.coatbookPhotoStore?.root !== folder.root) {
    kept.coatbookPhotoStore = {
      root: folder.root,
      store: opened(diskPhotoStore(folder)),
    }
  }
  return kept.coatbookPhotoStore.store
}

/** Whether the journal knows an original: one that is released has its time on the disk, also where its bytes come again. */
export async function isOnRecord(sha256: string): Promise<boolean> {
  const db = await database()
  const where = { sha256 }
  const known = await db.original.count({ where })
  return known > 0 || (await db.releasedOriginal.count({ where })) > 0
}

async function opened(store: PhotoStore): Promise<PhotoStore> {
  try {
    await store.removeLeftovers(isOnRecord)
    return store
  } catch (error) {
    // The next use tries again.
    kept.coatbookPhotoStore = undefined
    throw error
  }
}
