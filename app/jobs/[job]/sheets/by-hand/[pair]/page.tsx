import Link from 'next/link'
import { notFound } from 'next/navigation'
import { startPoints } from '#core/pairs/hand-points'
import { pairNames } from '#core/pairs/pair-names'
import { readJournal } from '#services/journal/read-journal'
import { readPairs } from '#services/pairs/pairs'
import { requireLocalRequest } from '../../../../../_session'
import { HandAlignment } from './_components/hand-alignment.client'
import { alignByHandAction, alignByPicturesAction } from './actions'

export default async function ByHandPage({
  params,
}: PageProps<'/jobs/[job]/sheets/by-hand/[pair]'>) {
  await requireLocalRequest()
  const { job, pair: id } = await params
  const [journal, pairs] = await Promise.all([readJournal(job), readPairs(job)])
  const pair = pairs.find((one) => one.id === id)
  const before = journal?.photos.find((one) => one.id === pair?.before)
  const after = journal?.photos.find((one) => one.id === pair?.after)
  if (
    journal === undefined ||
    pair === undefined ||
    before === undefined ||
    after === undefined
  ) {
    notFound()
  }
  const name = pairNames(journal, pairs)[pairs.indexOf(pair)]?.name ?? 'pair'
  const { state } = pair
  const homography = 'homography' in state ? state.homography : undefined
  const photo = ({ id: photoId, width, height }: typeof before) => ({
    id: photoId,
    width,
    height,
  })
  return (
    <section aria-labelledby="by-hand" className="flex flex-col gap-5">
      <div>
        <h2 id="by-hand" className="text-title mb-1 font-bold">
          Align by hand: {name}
        </h2>
        <p className="text-ink-soft max-w-prose">
          Put each number on the same place of the piece in both photos, such as
          its four corners. Drag a point, or choose it and tap where it belongs
          <span className="pointer-coarse:hidden">
            , or move it by the arrow keys: with Shift in larger steps
          </span>
          .
        </p>
      </div>
      <HandAlignment
        key={JSON.stringify([state.how, pair.handPoints])}
        before={photo(before)}
        after={photo(after)}
        start={pair.handPoints ?? startPoints(before, after, homography)}
        keep={alignByHandAction.bind(null, job, id)}
      />
      <div className="border-line flex flex-wrap items-center gap-3 border-t pt-5">
        {state.how === 'by-hand' && (
          <form action={alignByPicturesAction.bind(null, job, id)}>
            <button className="button">Back to what the pictures say</button>
          </form>
        )}
        <Link
          prefetch={false}
          href={`/jobs/${job}/sheets`}
          className="link inline-flex min-h-11 items-center"
        >
          All pairs
        </Link>
      </div>
    </section>
  )
}
