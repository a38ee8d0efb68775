import { expect, test } from 'vitest'
import { database } from '#services/database/open-database'
import {
  changeCredit,
  keepLook,
  readCredit,
  readLook,
} from '#services/sheets/sheet-settings'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('the look of the last sheet is kept, and a credit beside it', async () => {
  expect(await readLook()).toBeUndefined()
  expect(await readCredit()).toBe('')
  const look = {
    design: 'bold',
    ground: 'dark',
    elements: ['title', 'price'],
    light: 'matched',
  } as const
  await keepLook(look)
  await changeCredit('  Alder\n Yard ')
  expect(await readLook()).toEqual(look)
  expect(await readCredit()).toBe('Alder Yard')
  await keepLook({ ...look, elements: [] })
  expect(await readLook()).toEqual({ ...look, elements: [] })
  expect(await readCredit()).toBe('Alder Yard')
})

test('a look that was kept before there was a choice of light leaves it as taken', async () => {
  const db = await database()
  const kept = { design: 'bold', ground: 'dark', elements: ['price'] }
  await db.sheetSettings.create({
    data: { id: 'workshop', credit: '', look: JSON.stringify(kept) },
  })
  expect(await readLook()).toEqual({ ...kept, light: 'as-taken' })
})

test('a look that there is no more is as none', async () => {
  const db = await database()
  await db.sheetSettings.create({
    data: {
      id: 'workshop',
      credit: '',
      look: JSON.stringify({ design: 'gone', ground: 'dark', elements: [] }),
    },
  })
  expect(await readLook()).toBeUndefined()
})
