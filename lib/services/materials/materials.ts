import 'server-only'
import type { WorkshopSettings } from '#core/journal/journal'
import {
  type MaterialsList,
  listMaterials,
} from '#core/materials/list-materials'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'

/** A job's materials list and the settings to write it with, or undefined when there is no such job. */
export async function readMaterials(
  jobId: string,
): Promise<
  | { readonly list: MaterialsList; readonly settings: WorkshopSettings }
  | undefined
> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return undefined
  return { list: listMaterials(journal), settings: await readWorkshop() }
}
