import { afterAll, beforeAll, expect, test } from 'vitest'
import { judgeFinish } from '#core/finish/judge-finish'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { readJournal } from '#services/journal/read-journal'
import { renditionsIdle } from '#services/renditions/renditions'
import { seedDemo } from '../../../prisma/demo/seed-demo'
import { closeWorkshop, openWorkshop } from '../../support/workshop'

let root = ''
beforeAll(async () => {
  root = openWorkshop()
  await seedDemo(instant(Date.parse('2026-11-16T08:00:00Z')))
})
afterAll(async () => {
  await renditionsIdle()
  await closeWorkshop(root)
})

async function findings(title: string): Promise<readonly string[]> {
  const db = await database()
  const { id } = await db.job.findFirstOrThrow({ where: { title } })
  const journal = await readJournal(id)
  if (journal === undefined) throw new Error('the job is gone')
  return judgeFinish(journal).map(
    (one) => `${one.piece.name}, ${one.surface.name}: ${one.rule}`,
  )
}

/** What somebody at the bench would say of the jobs as they are written down and photographed; nothing else may be said. */
const agreed: Readonly<Record<string, readonly string[]>> = {
  'Oak sideboard and bench': [
    // An old finish of an unknown age was scuffed, and nobody wrote of a test.
    'sideboard, body: lead-test-first',
    'bench, body: lead-test-first',
    // No cleaning was photographed before the scuff, and none before the brass.
    'sideboard, body: clean-before-abrasion',
    'bench, body: clean-before-abrasion',
    'sideboard, hardware: dull-before-coat',
    // The top was stripped after the body was painted, and cleared nine hours after its oil stain.
    'sideboard, top: protect-from-stripper',
    'sideboard, top: stain-dry-before-clear',
  ],
  'Pine blanket box': [
    'blanket box, body: lead-test-first',
    'blanket box, body: clean-before-abrasion',
    // Pine has knots, and a bonding primer is not made to hold them back.
    'blanket box, body: block-stains',
  ],
}

test.each(Object.keys(agreed))(
  'of the demo’s %s only what a person at the bench would say',
  async (title) => {
    expect(
      (await findings(title)).filter((one) => !agreed[title]?.includes(one)),
    ).toEqual([])
  },
)

test('of the demo’s top, cleared nine hours after its oil stain, that it was too early', async () => {
  expect(await findings('Oak sideboard and bench')).toContain(
    'sideboard, top: stain-dry-before-clear',
  )
})
