import 'server-only'
import { paragraphsOf } from '#core/portfolio/show-piece'
import type { PortfolioHead } from '#core/portfolio/shown-piece'
import { plainText } from '#core/write-ups/plain-text'
import { database } from '#services/database/open-database'
import type { NewPortfolioSettings } from '#services/portfolio/schema'
import { readWorkshop } from '#services/workshop/workshop'

const row = { id: 'workshop' } as const

/** What stands on every page of the portfolio, as it was typed. */
export async function readPortfolioSettings(): Promise<NewPortfolioSettings> {
  const db = await database()
  const kept = await db.portfolioSettings.findUnique({ where: row })
  return {
    publicAddress: kept?.publicAddress ?? '',
    introduction: kept?.introduction ?? '',
    contact: kept?.contact ?? '',
  }
}

/** Keeps it. It is on all pages that are out at once. */
export async function changePortfolioSettings({
  publicAddress,
  introduction,
  contact,
}: NewPortfolioSettings): Promise<void> {
  const db = await database()
  const values = {
    publicAddress: publicAddress === '' ? null : publicAddress,
    introduction,
    contact,
  }
  await db.$transaction(async (transaction) => {
    await transaction.portfolioSettings.upsert({
      where: row,
      create: { ...row, ...values },
      update: values,
      select: { id: true },
    })
  })
}

/** What stands on every page of the portfolio, as visitors see it. */
export async function readPortfolioHead(): Promise<PortfolioHead> {
  const [{ name }, { publicAddress, introduction, contact }] =
    await Promise.all([readWorkshop(), readPortfolioSettings()])
  return {
    name: plainText(name),
    introduction: paragraphsOf(introduction),
    contact: contact
      .split('\n')
      .map(plainText)
      .filter((line) => line !== ''),
    ...(publicAddress !== '' && { publicAddress }),
  }
}
