import { expect, test } from 'vitest'
import { insertRow } from '#services/database/insert-row'
import {
  readInPlainSql,
  writeInPlainSql,
} from '#services/database/open-database'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a row is added with what it holds, whatever stands in it', async () => {
  const row = {
    id: '"; DROP TABLE "Camera"; --',
    make: 'Alder’s',
    model: "it's ?, ? and $1",
    serial: '',
    clockCorrectionSeconds: null,
    clockUncertaintySeconds: 2,
    createdAt: 1_790_000_000_123,
  }
  await writeInPlainSql((sql) => {
    insertRow(sql, 'Camera', row)
  })
  const rows = await readInPlainSql((sql) => sql.rows('SELECT * FROM "Camera"'))
  expect(rows).toEqual([row])
})
