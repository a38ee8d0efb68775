import { expect, test } from 'vitest'
import { instant } from '#core/units'
import { workshopSettings } from '#services/workshop/schema'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { readWorkshop } from '#services/workshop/workshop'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a new workshop is in the zone of its environment, and keeps what it is told', async () => {
  expect(await readWorkshop()).toMatchObject({ zone: 'Europe/London' })
  const told = workshopSettings.parse({
    name: ' Alder Yard ',
    zone: 'America/Chicago',
    currency: 'usd',
    units: 'us',
  })
  await changeWorkshop(told, instant(0))
  await changeWorkshop({ ...told, name: 'Alder Yard, bay two' }, instant(0))
  expect(await readWorkshop()).toEqual({
    name: 'Alder Yard, bay two',
    zone: 'America/Chicago',
    currency: 'USD',
    units: 'us',
  })
})

test.each([
  ['a zone that there is none of', { zone: 'Europe/Alder' }],
  ['a currency by its sign', { currency: '£' }],
  ['no name', { name: ' ' }],
  ['units that there are none of', { units: 'imperial' }],
])('%s is refused', (_, wrong) => {
  const settings = workshopSettings.safeParse({
    name: 'Alder Yard',
    zone: 'Europe/London',
    currency: 'GBP',
    units: 'metric',
    ...wrong,
  })
  expect(settings.success).toBe(false)
})
