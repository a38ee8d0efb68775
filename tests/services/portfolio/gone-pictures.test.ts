import { existsSync, readdirSync } from 'node:fs'
import { afterAll, expect, test } from 'vitest'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { removePhoto } from '#services/bin/bin'
import { putInBin } from '#services/bin/bin-parts'
import { emptyWholeBin } from '#services/bin/empty-bin'
import { openDataFolder } from '#services/database/open-database'
import { readPublished } from '#services/portfolio/published'
import { makePhoto } from '../../support/make-photo'
import { arrival } from '../../support/send-photos'
import { choiceOf, makeShownJob, publishWith } from '../../support/shown-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

async function published(width: number) {
  const job = await makeShownJob(
    ['before.jpg', await makePhoto({ width, height: 60 })],
    ['after.jpg', await makePhoto({ width: width + 1, height: 60 })],
  )
  await publishWith(
    job.id,
    job.pieceId,
    choiceOf(job, { pairs: [], photos: [job.before, job.after] }),
  )
  return job
}

async function pictures(): Promise<readonly string[]> {
  const { portfolio } = await openDataFolder()
  return existsSync(portfolio)
    ? readdirSync(portfolio, { recursive: true, encoding: 'utf8' }).filter(
        (name) => name.includes('.'),
      )
    : []
}

test('what the portfolio made of a photo or a piece goes for good with it', async () => {
  const [one, other] = [await published(70), await published(80)]
  const all = await pictures()
  await removePhoto(one.id, one.after, arrival)
  await emptyWholeBin(arrival)
  const fewer = await pictures()
  expect(fewer.length).toBeGreaterThan(0)
  expect(fewer.length).toBeLessThan(all.length)
  // Both were published at one moment, so nothing tells which comes first.
  expect(
    (await readPublished()).map(({ shown }) => shown.gallery.length).toSorted(),
  ).toEqual([1, 2])
  await putInBin({ kind: 'job', jobId: other.id, id: other.id }, arrival)
  await emptyWholeBin(arrival)
  await putInBin({ kind: 'job', jobId: one.id, id: one.id }, arrival)
  await emptyWholeBin(arrival)
  expect(await readPublished()).toEqual([])
  expect(await pictures()).toEqual([])
})
