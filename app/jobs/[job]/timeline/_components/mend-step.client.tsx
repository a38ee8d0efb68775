'use client'

import { useActionState, useEffect, useRef, useState } from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { Fold } from '../../../../_components/fold'
import {
  type StepChoices,
  StepFields,
  type StepValues,
} from '../../_components/step-fields.client'
import { changeStepAction, judgeDraftAction } from '../../steps/actions'
import {
  moveStepAction,
  readStepFormAction,
  takeStepOutAction,
} from '../mending-actions'
import { useLookedUp } from './use-looked-up.client'

/** A step as the panel for mending it needs it. */
export type StepForm = {
  readonly title: string
  /** When it was, and what says so. */
  readonly when: string
  readonly photos: readonly { readonly id: string; readonly time: string }[]
  readonly choices: StepChoices
  readonly values: StepValues
  /** Where it can change places with its neighbour, because no time tells which came first. */
  readonly moves: readonly {
    readonly surface: string
    readonly toward: 'earlier' | 'later'
    readonly words: string
  }[]
}

/** A step mended over the drawing, which stays where it is. */
export function MendStep({
  job,
  step,
  onClose,
}: {
  readonly job: string
  readonly step: string
  /** Gets what was done, where anything was. */
  readonly onClose: (said?: string) => void
}) {
  const dialog = useRef<HTMLDialogElement>(null)
  const [said, setSaid] = useState<string | undefined>()
  const form = useLookedUp(readStepFormAction, job, step)
  useEffect(() => {
    dialog.current?.showModal()
  }, [])
  useEffect(() => {
    // Closed rather than taken away, so that the mark has the focus again.
    if (said !== undefined) dialog.current?.close()
  }, [said])
  function closing(action: FormAction): FormAction {
    return async (previous, values) => {
      const state = await action(previous, values)
      if (state.outcome === 'saved') {
        setSaid(state.message)
      }
      return state
    }
  }
  return (
    <dialog
      ref={dialog}
      aria-labelledby="mend-step"
      className="bg-paper text-ink m-auto max-h-[100dvh] w-full max-w-2xl p-4 backdrop:bg-black/70 panel-edge"
      onClose={() => {
        onClose(said)
      }}
    >
      <div className="mb-4 flex items-start justify-between gap-3">
        <h2 id="mend-step" className="text-lead pt-1.5 font-bold">
          {typeof form === 'object' ? form.title : 'Mend a step'}
        </h2>
        <button
          type="button"
          className="button"
          onClick={() => dialog.current?.close()}
        >
          Close
        </button>
      </div>
      {form === undefined && (
        <p role="status" className="min-h-[60dvh]">
          Looking it up …
        </p>
      )}
      {form === 'none' && (
        <p role="status">
          It could not be had. It may have been removed, or there is no network.
        </p>
      )}
      {typeof form === 'object' && (
        <>
          <p className="-mt-2 mb-3">{form.when}</p>
          {form.photos.length > 0 && (
            <ul
              aria-label="Its photos"
              className="-mx-4 mb-4 flex gap-2 overflow-x-auto px-4 pb-1"
            >
              {form.photos.map((photo) => (
                <li key={photo.id} className="w-36 shrink-0">
                  <a
                    href={`/jobs/${job}/photos/${photo.id}`}
                    className="text-small block"
                  >
                    <img
                      src={`/api/photos/${photo.id}/thumb`}
                      alt=""
                      width={144}
                      height={108}
                      className="bg-well rounded-control aspect-[4/3] w-full object-cover"
                    />
                    <span className="sr-only">Photo of </span>
                    {photo.time}
                  </a>
                </li>
              ))}
            </ul>
          )}
          <ActionForm
            action={closing(changeStepAction.bind(null, job, step))}
            label="What the step says"
          >
            <StepFields
              choices={form.choices}
              values={form.values}
              judgeDraft={judgeDraftAction.bind(null, job, step)}
            />
            <div className="border-line bg-paper sticky -bottom-4 z-10 -mx-4 mt-5 border-t px-4 py-3">
              <SubmitButton>Save the step</SubmitButton>
            </div>
          </ActionForm>
          <Fold title="Its order">
            {form.moves.length === 0 ? (
              <p>
                Its times tell where it stands.{' '}
                {form.photos.length > 0 &&
                  'They come from its photos, unless they are typed above.'}
              </p>
            ) : (
              form.moves.map(({ surface, toward, words }) => (
                <ActionForm
                  key={`${surface} ${toward}`}
                  action={closing(
                    moveStepAction.bind(null, job, step, surface, toward),
                  )}
                  label={words}
                >
                  <SubmitButton quiet>{words}</SubmitButton>
                </ActionForm>
              ))
            )}
          </Fold>
          <Fold title="Take the step out">
            <ActionForm
              action={closing(takeStepOutAction.bind(null, job, step))}
              label="Take the step out"
            >
              <p className="mb-3">
                Its photos stay with the job. The timeline offers to undo it,
                and to number later coats anew.
              </p>
              <SubmitButton quiet>Take it out</SubmitButton>
            </ActionForm>
          </Fold>
          <a href={`/jobs/${job}/steps/${step}`} className="button mt-2">
            Its page, with {form.photos.length}{' '}
            {form.photos.length === 1 ? 'photo' : 'photos'}
          </a>
        </>
      )}
    </dialog>
  )
}

/** What was done to a step, in reach of the thumb wherever the drawing was left, with the way back. */
export function MendedBar({
  said,
  undo,
  onClose,
}: {
  readonly said: string
  /** Undoes it; absent while that cannot be offered. */
  readonly undo: FormAction | undefined
  readonly onClose: () => void
}) {
  return (
    <section
      aria-label="Just now"
      className="border-line-strong bg-paper fixed inset-x-0 bottom-(--bar) z-30 border-t-2 p-3 shadow-lg sm:inset-x-auto sm:right-6 sm:bottom-6 sm:rounded-(--radius-card) sm:border-2 print:hidden"
    >
      <div className="mx-auto flex max-w-6xl flex-wrap items-center justify-between gap-x-4 gap-y-2">
        <p>
          <span className="text-sound block font-bold">{said}</span>
          <span className="text-small">
            The drawing and the lists below it go by it.
          </span>
        </p>
        <div className="flex gap-2">
          <button
            type="button"
            className="button button-quiet"
            onClick={onClose}
          >
            Close
          </button>
          {undo !== undefined && <UndoButton undo={undo} />}
        </div>
      </div>
    </section>
  )
}

function UndoButton({ undo }: { readonly undo: FormAction }) {
  const [state, send, pending] = useActionState(undo, { outcome: 'idle' })
  return (
    <form action={send}>
      <button className="button" disabled={pending}>
        {pending ? 'Undoing …' : 'Undo it'}
      </button>
      {state.outcome === 'refused' && (
        <p role="alert" className="text-wet mt-1 font-bold">
          {state.message}
        </p>
      )}
    </form>
  )
}
