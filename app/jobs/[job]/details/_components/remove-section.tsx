import type { Piece } from '#core/journal/journal'
import type { MomentStyle } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { BinnedPart } from '#services/bin/bin-parts'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { BinnedParts } from '../../../../workshop/bin/_components/binned-parts'
import { removeJobAction, removePartAction } from '../actions'

/** What can go into the bin, and what of this job is there. */
export function RemoveSection({
  job,
  pieces,
  binned,
  present,
  style,
}: {
  readonly job: string
  readonly pieces: readonly Piece[]
  readonly binned: readonly BinnedPart[]
  readonly present: Instant
  readonly style: MomentStyle
}) {
  const removable = pieces.flatMap((piece) => [
    ...(pieces.length > 1
      ? [{ kind: 'piece' as const, id: piece.id, name: piece.name }]
      : []),
    ...(piece.surfaces.length > 1
      ? piece.surfaces.map(({ id, name }) => ({
          kind: 'surface' as const,
          id,
          name: pieces.length > 1 ? `${piece.name}, ${name}` : name,
        }))
      : []),
  ])
  return (
    <section aria-labelledby="remove">
      <h2 id="remove" className="text-lead mb-1 font-bold">
        Into the bin
      </h2>
      <p className="text-ink-soft mb-2 max-w-prose">
        What was done to it goes with it, photos too, and all of it comes back
        with one tap.
      </p>
      {binned.length > 0 && (
        <div className="my-4">
          <BinnedParts parts={binned} present={present} style={style} />
        </div>
      )}
      {removable.length > 0 && (
        <details>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            A piece or a surface
          </summary>
          <ul className="mt-2 flex flex-col gap-2">
            {removable.map(({ kind, id, name }) => (
              <li key={id}>
                <ActionForm
                  action={removePartAction.bind(null, job, kind, id)}
                  label={`Put ${name} in the bin`}
                  className="border-line flex flex-wrap items-center justify-between gap-3 border-t pt-2"
                >
                  <span className={kind === 'piece' ? 'font-bold' : ''}>
                    {name}
                  </span>
                  <SubmitButton quiet pendingText="Removing …">
                    Remove
                  </SubmitButton>
                </ActionForm>
              </li>
            ))}
          </ul>
        </details>
      )}
      <details>
        <summary className="link flex min-h-12 cursor-pointer items-center">
          The whole job
        </summary>
        <form
          action={removeJobAction.bind(null, job)}
          className="mt-2 flex flex-col items-start gap-3"
        >
          <p>
            It waits in the bin, under Workshop, where you can bring it back;
            the bin says until when.
          </p>
          <button className="button">Put the job in the bin</button>
        </form>
      </details>
    </section>
  )
}
