import { expect, test } from 'vitest'
import { readOpenViews, readViewPhoto } from '#services/snap/read-views'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a view can be taken again until its after photo is there', async () => {
  const job = await makeJob()
  const send = async (subSeconds: string, role: string, view: string) => {
    const bytes = await makePhoto({ taken: '2026:10:22 09:00:00', subSeconds })
    const { photos } = await sendPhotos(
      job.id,
      [[`${subSeconds}.jpg`, bytes]],
      [
        ['role', role],
        ['view', view],
      ],
    )
    return photos[0]?.id ?? ''
  }
  const front = await send('1', 'before', 'front')
  const top = await send('2', 'before', 'top')
  expect((await readOpenViews()).map((one) => one.id)).toEqual([front, top])
  await send('3', 'after', 'front')
  expect(await readOpenViews()).toMatchObject([
    { id: top, view: 'top', jobId: job.id, width: 64, height: 48 },
  ])
  expect(await readViewPhoto(front)).toMatchObject({ view: 'front' })
  expect(await readViewPhoto('nothing')).toBeUndefined()
})
