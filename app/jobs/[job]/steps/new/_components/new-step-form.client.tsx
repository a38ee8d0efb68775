'use client'

import { type ReactNode, useState } from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../../_components/action-form.client'

/** The form of a step that begins: now, unless its times are typed. */
export function NewStepForm({
  start,
  isPast,
  children,
}: {
  readonly start: FormAction
  /** Whether a time stands in it already. */
  readonly isPast: boolean
  readonly children: ReactNode
}) {
  const [isTyped, setTyped] = useState(isPast)
  return (
    <ActionForm
      action={start}
      onChange={(form) => {
        setTyped(
          ['startedAt', 'finishedAt'].some((name) => form.get(name) !== ''),
        )
      }}
    >
      {children}
      {isTyped ? (
        <p className="mt-5 flex min-h-12 items-center font-semibold">
          It was when the typed times say.
        </p>
      ) : (
        <label className="choice mt-5 w-full">
          <input type="checkbox" name="startsNow" defaultChecked />
          <span>
            It starts now
            <span className="text-ink-soft text-small block font-normal">
              Leave this out for work done earlier: its photos or typed times
              then tell when.
            </span>
          </span>
        </label>
      )}
      <div className="mt-5">
        <SubmitButton>Go on to its photos</SubmitButton>
      </div>
    </ActionForm>
  )
}
