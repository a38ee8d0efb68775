import type { OwnMark } from '#services/sheets/own-mark'
import {
  changeMarkWordsAction,
  refreshSheetsAction,
  removeMarkPictureAction,
} from '../actions'
import { MarkPicture } from './mark-picture.client'

/** The workshop's own mark: words, or a picture that takes their place. */
export function MarkSection({
  job,
  mark,
}: {
  readonly job: string
  readonly mark: OwnMark | undefined
}) {
  return (
    <section aria-labelledby="own-mark" className="flex flex-col gap-4">
      <h2 id="own-mark" className="text-lead font-bold">
        Own mark
      </h2>
      {mark?.picture !== undefined && (
        <div className="flex flex-wrap items-center gap-4">
          <img
            src="/api/workshop/mark"
            alt="The mark as it is"
            width={mark.picture.width}
            height={mark.picture.height}
            className="card bg-well h-16 w-auto p-2"
          />
          <form action={removeMarkPictureAction.bind(null, job)}>
            <button className="button">Remove the picture</button>
          </form>
        </div>
      )}
      <MarkPicture refresh={refreshSheetsAction.bind(null, job)} />
      <form
        action={changeMarkWordsAction.bind(null, job)}
        className="flex flex-wrap items-end gap-3"
      >
        <label className="flex min-w-0 flex-col gap-1.5">
          <span className="font-semibold">In words</span>
          <input
            name="words"
            defaultValue={mark?.words ?? ''}
            maxLength={40}
            className="input"
          />
        </label>
        <button className="button">Keep these words</button>
      </form>
    </section>
  )
}
