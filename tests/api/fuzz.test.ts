import { readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { openApiDocument } from '#services/openapi/document'
import { restoreBackup } from '#services/backup/restore-backup'
import { checkJournal } from '#services/check/check-journal'
import { dataFolder } from '#services/settings/data-folder'
import { fuzzInterface } from '../../lib/commands/fuzz-interface'
import { toPart } from '../../lib/commands/fuzz-values'
import { withComment } from '../../lib/commands/with-comment'
import { callApi } from '../support/api'
import { backUp, backupMoment, useFolder } from '../support/backup-journal'
import { makePhoto } from '../support/make-photo'
import { useWorkshop } from '../support/workshop'

useWorkshop()
const folder = useFolder()

const minute = 60_000

test(
  'whatever is sent is answered, is refused without a trace, and leaves a sound journal',
  async () => {
    const furniture = readFileSync(
      'prisma/demo/photos/job-a/01-before-front.jpg',
    )
    const figures = await fuzzInterface(
      {
        document: toPart(JSON.parse(JSON.stringify(openApiDocument()))),
        // Holds each answer against the document too.
        send: ({ method, address, headers, body }) =>
          callApi(method, address, {
            headers,
            ...(body === undefined ? {} : { body }),
          }),
        root: process.env['COATBOOK_DATA'] ?? '',
        photos: [
          await makePhoto({ taken: '2026:10:22 09:00:00' }),
          await makePhoto({ taken: '2026:10:22 11:00:00', width: 72 }),
          await makePhoto({ colour: { r: 200, g: 190, b: 170 } }, 'png'),
        ],
        alike: [withComment(furniture, 'one'), withComment(furniture, 'other')],
      },
      { milliseconds: minute, valuesOfAField: 6, seed: 1 },
    )
    expect(figures.operations).toBeGreaterThan(30)
    expect(figures.fields).toBeGreaterThan(150)
    // It got further than to the first check: a request as it should be was taken by every operation.
    expect(figures.neverTaken).toEqual([])
    for (const [operation, { cases, taken }] of Object.entries(figures.asked)) {
      expect(cases, operation).toBeGreaterThan(2)
      expect(taken, operation).toBeGreaterThan(0)
    }
    expect(figures.statuses['201']).toBeGreaterThan(40)
    expect(figures.statuses['400']).toBeGreaterThan(500)
    expect((await checkJournal()).findings).toEqual([])
    // Whatever the interface takes a backup must bring back: it is held to the same bounds.
    const root = process.env['COATBOOK_DATA'] ?? ''
    const restored = await restoreBackup(
      await backUp(root, folder()),
      dataFolder(path.join(folder(), 'empty')),
      { dryRun: true },
      backupMoment,
    )
    expect(restored.ok ? '' : restored.refusal.detail).toBe('')
  },
  10 * minute,
)
