import { expect, test } from 'vitest'
import { addMinutes, minutesPerDay } from '#core/units'
import { removePhoto } from '#services/bin/bin'
import { changeBinRules, recordBinLook } from '#services/bin/bin-settings'
import { startDailyBinLooks } from '#services/bin/daily-look'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { until } from '../../support/until'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a start looks into the bin at once, and removes what has had its time', async () => {
  const ago = (days: number) => addMinutes(now(), -days * minutesPerDay)
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [
    ['old.jpg', await makePhoto({ width: 64 })],
    ['new.jpg', await makePhoto({ width: 65 })],
  ])
  await changeBinRules({ keepDays: 3, originalDays: 1 })
  await recordBinLook(ago(2), ago(10))
  const [old, young] = photos.map(({ id }) => id)
  await removePhoto(job.id, old ?? '', ago(4))
  await removePhoto(job.id, young ?? '', ago(2))
  startDailyBinLooks()
  const db = await database()
  await until(async () => {
    const left = await db.photo.findMany({ select: { id: true } })
    expect(left).toEqual([{ id: young }])
  })
})
