import { expect, test } from 'vitest'
import { instant } from '#core/units'
import { readJournal } from '#services/journal/read-journal'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { keepFirstSettings, readWorkshop } from '#services/workshop/workshop'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const settings = {
  name: 'Alder Yard',
  zone: 'Europe/London',
  currency: 'GBP',
  units: 'metric',
} as const

test('another zone moves the photos that were read in the old one, and no others', async () => {
  await changeWorkshop(settings, instant(0))
  const job = await makeJob()
  await sendPhotos(job.id, [
    [
      'a-without.jpg',
      await makePhoto({ taken: '2026:10:22 10:00:00', width: 40 }),
    ],
    [
      'b-with.jpg',
      await makePhoto({
        taken: '2026:10:22 10:00:00',
        offset: '+01:00',
        width: 41,
      }),
    ],
  ])
  const times = async () =>
    Object.fromEntries(
      (await readJournal(job.id))?.photos.map((photo) => [
        photo.fileName,
        new Date(photo.taken.at).toISOString(),
      ]) ?? [],
    )
  expect(await times()).toEqual({
    'a-without.jpg': '2026-10-22T09:00:00.000Z',
    'b-with.jpg': '2026-10-22T09:00:00.000Z',
  })
  await changeWorkshop({ ...settings, zone: 'America/Chicago' }, instant(0))
  expect(await times()).toEqual({
    'a-without.jpg': '2026-10-22T15:00:00.000Z',
    'b-with.jpg': '2026-10-22T09:00:00.000Z',
  })
})

test('the first settings are written down once, and do not follow the machine', async () => {
  await keepFirstSettings(instant(0))
  const zone = process.env['COATBOOK_ZONE']
  try {
    process.env['COATBOOK_ZONE'] = 'Pacific/Chatham'
    await keepFirstSettings(instant(0))
    expect(await readWorkshop()).toMatchObject({ zone: 'Europe/London' })
  } finally {
    if (zone === undefined) delete process.env['COATBOOK_ZONE']
    else process.env['COATBOOK_ZONE'] = zone
  }
})
