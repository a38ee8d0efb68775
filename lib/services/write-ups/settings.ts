import 'server-only'
import type { z } from 'zod'
import {
  type WriteUpSettings,
  usualWriteUpSettings,
} from '#core/write-ups/write-up-settings'
import { database } from '#services/database/open-database'
import { newWriteUpSettings } from '#services/write-ups/schema'

const row = { id: 'workshop' } as const

/** How long write-ups may be, and what stands in all of them: what was set, else what is usual. */
export async function readWriteUpSettings(): Promise<WriteUpSettings> {
  const db = await database()
  const kept = await db.writeUpSettings.findUnique({ where: row })
  if (kept === null) return usualWriteUpSettings
  return {
    limits: {
      listingTitle: kept.listingTitleLimit,
      listing: kept.listingLimit,
      video: kept.videoLimit,
      caption: kept.captionLimit,
    },
    links: newWriteUpSettings.shape.links.parse(JSON.parse(kept.links)),
    tags: newWriteUpSettings.shape.tags.parse(JSON.parse(kept.tags)),
  }
}

/** Keeps them. */
export async function changeWriteUpSettings({
  limits,
  links,
  tags,
}: z.output<typeof newWriteUpSettings>): Promise<void> {
  const db = await database()
  const values = {
    listingTitleLimit: limits.listingTitle,
    listingLimit: limits.listing,
    videoLimit: limits.video,
    captionLimit: limits.caption,
    links: JSON.stringify(links),
    tags: JSON.stringify(tags),
  }
  await db.$transaction(async (transaction) => {
    await transaction.writeUpSettings.upsert({
      where: row,
      create: { ...row, ...values },
      update: values,
      select: { id: true },
    })
  })
}
