import type { Journal } from '#core/journal/journal'
import { renumberedCoats } from '#core/journal/renumber-coats'
import { momentWords } from '#core/time/moments'
import type { Timeline } from '#core/timeline/timeline'
import type { LastChange } from '#services/changes/changes'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { kindName, listOf, stepName, surfacesWords } from '../../../../_words'
import { undoChangeAction } from '../actions'
import { renumberAction } from '../mending-actions'
import type { LaneStyle } from './lane-view'

/** What was changed last, with the way back, and with the later coats that may follow it. */
export function LastChangeView({
  job,
  change,
  journal,
  timeline,
  style,
}: {
  readonly job: string
  readonly change: LastChange
  readonly journal: Journal
  readonly timeline: Timeline
  readonly style: LaneStyle
}) {
  const coats = renumberedCoats(timeline.lanes, change.counts)
  return (
    <div className="card mb-6 flex flex-col gap-3 p-4 print:hidden">
      <ActionForm
        action={undoChangeAction.bind(null, job, change.id)}
        label="Undo the last change"
        className={rowWithButton}
      >
        <p className="min-w-0 flex-[1_1_14rem]">
          Last change: {changeWords(change, journal)},{' '}
          {momentWords(change.changedAt, style.now, style)}.
        </p>
        <SubmitButton quiet pendingText="Undoing …">
          Undo it
        </SubmitButton>
      </ActionForm>
      {coats.length > 0 && (
        <ActionForm
          action={renumberAction.bind(null, job, change.counts)}
          label="Number the coats anew"
          className={`border-line border-t pt-3 ${rowWithButton}`}
        >
          <p className="min-w-0 flex-[1_1_14rem]">
            The coats can be numbered in the order they went on:{' '}
            {listOf(
              coats.map(({ stepId, surfaceId, was, coat }) => {
                const step = journal.steps.find(({ id }) => id === stepId)
                const name =
                  step === undefined ? 'Coat' : stepName(step.kind, was)
                return `${surfacesWords(journal.pieces, [surfaceId])}: ${name} becomes ${coat}`
              }),
            )}
            .
          </p>
          <SubmitButton quiet pendingText="Numbering …">
            Number them anew
          </SubmitButton>
        </ActionForm>
      )}
    </div>
  )
}

/** Words with a button at the end of their row; what the form says of itself has the next row, and no room before it says anything. */
const rowWithButton =
  'flex flex-wrap items-center gap-x-3 gap-y-2 *:[[role=status]]:m-0 *:[[role=status]]:min-h-0 *:[[role=status]]:basis-full'

function changeWords(
  { kind, step, photoIds }: LastChange,
  { pieces }: Journal,
): string {
  const photos = photoIds.length === 1 ? 'a photo' : `${photoIds.length} photos`
  switch (kind) {
    case 'photos-placed':
      return `what ${photos} ${photoIds.length === 1 ? 'shows' : 'show'}`
    case 'photo-timed':
      return `when ${photos} ${photoIds.length === 1 ? 'was' : 'were'} taken`
    case 'photo-turned':
      return `how ${photos} ${photoIds.length === 1 ? 'is' : 'are'} turned`
    case 'handed-over':
      return 'when it was finished, sold or delivered'
    case 'facts-told':
      return 'the details of the job'
    case 'renumbered':
      return 'the coats were numbered anew'
    case 'added':
    case 'changed':
    case 'removed': {
      if (step === undefined) return `a step was ${kind}`
      const where = surfacesWords(pieces, step.surfaceIds)
      return `the step “${kindName(step.kind)}”${where === '' ? '' : ` on ${where}`} was ${kind}`
    }
  }
}
