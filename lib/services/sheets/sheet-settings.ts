import 'server-only'
import { type SheetLook } from '#core/sheets/sheet-design'
import { plainText } from '#core/write-ups/plain-text'
import { database } from '#services/database/open-database'
import { sheetLook } from '#services/sheets/schema'

const row = { id: 'workshop' } as const
export const creditAtMost = 80

/** Whom the files that leave name as their author; empty where they name nobody. */
export async function readCredit(): Promise<string> {
  const db = await database()
  const kept = await db.sheetSettings.findUnique({
    where: row,
    select: { credit: true },
  })
  return kept?.credit ?? ''
}

/** Has the files that leave from now on name an author; with nothing typed, nobody. */
export async function changeCredit(typed: string): Promise<void> {
  await keep({ credit: plainText(typed).slice(0, creditAtMost) })
}

/** How a sheet was last made to look; undefined where none was yet. */
export async function readLook(): Promise<SheetLook | undefined> {
  const db = await database()
  const kept = await db.sheetSettings.findUnique({
    where: row,
    select: { look: true },
  })
  if (kept === null || kept.look === null) return undefined
  // A design that there is no more is as none.
  return sheetLook.safeParse(JSON.parse(kept.look)).data
}

/** Keeps how a sheet was made to look, for the next one. */
export async function keepLook(look: SheetLook): Promise<void> {
  await keep({ look: JSON.stringify(look) })
}

async function keep(values: {
  readonly credit?: string
  readonly look?: string
}): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.sheetSettings.upsert({
      where: row,
      create: { ...row, credit: '', ...values },
      update: values,
      select: { id: true },
    })
  })
}
