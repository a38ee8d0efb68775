'use client'

import { type ReactNode, useEffect, useRef, useState } from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../_components/action-form.client'
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
  readonly choices: StepChoices
  readonly values: StepValues
  /** Where it can change places with its neighbour, because no time tells which came first. */
  readonly moves: readonly {
    readonly surface: string
    readonly toward: 'earlier' | 'later'
    readonly words: string
  }[]
  readonly photoCount: number
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
      className="bg-paper text-ink m-auto max-h-[100dvh] w-full max-w-2xl p-4 backdrop:bg-black/70 sm:rounded-(--radius-card)"
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
          <ActionForm
            action={closing(changeStepAction.bind(null, job, step))}
            label="What was done"
          >
            <StepFields
              choices={form.choices}
              values={form.values}
              judgeDraft={judgeDraftAction.bind(null, job, step)}
            />
            <div className="mt-5">
              <SubmitButton>Save the step</SubmitButton>
            </div>
          </ActionForm>
          <More title="Its order">
            {form.moves.length === 0 ? (
              <p>
                Its times tell where it stands.{' '}
                {form.photoCount > 0 &&
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
          </More>
          <More title="Take the step out">
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
          </More>
          <a href={`/jobs/${job}/steps/${step}`} className="button mt-2">
            Its page, with {form.photoCount}{' '}
            {form.photoCount === 1 ? 'photo' : 'photos'}
          </a>
        </>
      )}
    </dialog>
  )
}

function More({
  title,
  children,
}: {
  readonly title: string
  readonly children: ReactNode
}) {
  return (
    <details className="border-line border-t">
      <summary className="link flex min-h-12 cursor-pointer items-center">
        {title}
      </summary>
      <div className="pb-3">{children}</div>
    </details>
  )
}
