'use client'

import {
  type ReactNode,
  createContext,
  useContext,
  useEffect,
  useState,
} from 'react'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../../_components/action-form.client'

const Unsaved = createContext<{
  readonly isUnsaved: boolean
  readonly set: (isUnsaved: boolean) => void
}>({ isUnsaved: false, set: () => undefined })

/** Knows whether the draft on this page has changes that are not saved, and asks before they are left behind. */
export function UnsavedDraft({ children }: { readonly children: ReactNode }) {
  const [isUnsaved, set] = useState(false)
  useEffect(() => {
    if (!isUnsaved) return
    const ask = (event: BeforeUnloadEvent) => {
      event.preventDefault()
    }
    addEventListener('beforeunload', ask)
    return () => {
      removeEventListener('beforeunload', ask)
    }
  }, [isUnsaved])
  return <Unsaved value={{ isUnsaved, set }}>{children}</Unsaved>
}

/** The draft itself; once something in it was changed, the button that saves it stays in sight. */
export function DraftForm({
  action,
  children,
}: {
  readonly action: FormAction
  readonly children: ReactNode
}) {
  const { isUnsaved, set } = useContext(Unsaved)
  return (
    <ActionForm
      action={async (previous, form) => {
        const state = await action(previous, form)
        if (state.outcome === 'saved') set(false)
        return state
      }}
      className="flex flex-col gap-6"
      label="What to show"
      onChange={() => {
        set(true)
      }}
    >
      {children}
      <div
        className={`bg-ground -mx-4 flex flex-wrap items-center gap-3 px-4 py-3 sm:-mx-6 sm:px-6 ${isUnsaved ? 'border-line sticky bottom-(--covered) z-10 border-t' : ''}`}
      >
        <SubmitButton>Save the draft</SubmitButton>
        {isUnsaved && <span className="font-semibold">Not saved yet.</span>}
      </div>
    </ActionForm>
  )
}

/** What goes by the draft as it was saved: held back while there is more on the page. */
export function OnceSaved({ children }: { readonly children: ReactNode }) {
  const { isUnsaved } = useContext(Unsaved)
  return isUnsaved ? (
    <p className="text-late max-w-prose basis-full font-semibold">
      What you changed below is not saved yet. Save the draft, look at it as
      visitors will, then publish it.
    </p>
  ) : (
    children
  )
}
