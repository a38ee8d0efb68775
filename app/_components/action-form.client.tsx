'use client'

import {
  type ReactNode,
  createContext,
  startTransition,
  useActionState,
  useContext,
  useEffect,
  useRef,
  useState,
} from 'react'

/** What an action says of the form that was sent to it. */
export type FormState = {
  readonly outcome: 'idle' | 'saved' | 'refused'
  readonly message?: string
  /** By the name of the field. */
  readonly errors?: Readonly<Record<string, string>>
}

export type FormAction = (
  previous: FormState,
  form: FormData,
) => Promise<FormState>

const Errors = createContext<Readonly<Record<string, string>>>({})
const Pending = createContext(false)

/**
 * A form whose action answers with what is wrong, field by field. What was typed stays; the summary of what is wrong
 * takes the focus; a success is said politely.
 */
export function ActionForm({
  action,
  children,
  className,
  label,
  onChange,
}: {
  readonly action: FormAction
  readonly children: ReactNode
  readonly className?: string
  readonly label?: string
  /** Gets the form as it stands whenever something in it was changed. */
  readonly onChange?: (form: FormData) => void
}) {
  const [state, submit, pending] = useActionState(action, { outcome: 'idle' })
  const summary = useRef<HTMLDivElement>(null)
  const [labels, setLabels] = useState<ReadonlyMap<string, string>>(new Map())
  useEffect(() => {
    if (state.outcome === 'refused') summary.current?.focus()
  }, [state])
  const errors = Object.entries(state.errors ?? {})
  // What is wrong with one field is said there and in the list; a heading in the same words would say it thrice.
  const heading = errors.some(([, message]) => message === state.message)
    ? undefined
    : state.message
  return (
    <form
      action={submit}
      className={className}
      aria-label={label}
      noValidate
      onChange={(event) => onChange?.(new FormData(event.currentTarget))}
      onSubmit={(event) => {
        // React empties a form after its action; what was typed must stay when something is wrong with it.
        event.preventDefault()
        const form = new FormData(
          event.currentTarget,
          event.nativeEvent instanceof SubmitEvent
            ? event.nativeEvent.submitter
            : null,
        )
        setLabels(labelsOf(event.currentTarget))
        startTransition(() => {
          submit(form)
        })
      }}
    >
      {state.outcome === 'refused' && (
        <div
          ref={summary}
          tabIndex={-1}
          role="alert"
          className="border-wet bg-wet-soft text-wet rounded-card mb-4 border-2 p-4 outline-offset-4"
        >
          <p className="font-bold">
            {heading ?? 'This could not be saved yet.'}
          </p>
          {errors.length > 0 && (
            <ul className="mt-1 list-disc pl-5">
              {errors.map(([name, message]) => (
                <li key={name}>
                  <a
                    href={`#${fieldId(name)}`}
                    className="block py-2.5 underline"
                  >
                    {labels.has(name) && `${labels.get(name) ?? ''}: `}
                    {message}
                  </a>
                </li>
              ))}
            </ul>
          )}
        </div>
      )}
      <Errors value={state.errors ?? {}}>
        <Pending value={pending}>{children}</Pending>
      </Errors>
      <p role="status" className="text-sound mt-2 min-h-6 font-bold">
        {state.outcome === 'saved' && !pending ? state.message : ''}
      </p>
    </form>
  )
}

/** What the fields of a form are called, by their names; with the group before it where a form has several alike. */
function labelsOf(form: HTMLFormElement): ReadonlyMap<string, string> {
  const groups = form.querySelectorAll('[data-field-group]')
  return new Map(
    [...form.querySelectorAll<HTMLElement>('[data-field]')].map((field) => {
      const label = field.dataset['fieldLabel'] ?? ''
      const group = field.closest<HTMLElement>('[data-field-group]')
      const of = groups.length < 2 ? '' : (group?.dataset['fieldGroup'] ?? '')
      return [
        field.dataset['field'] ?? '',
        of === '' ? label : `${of}, ${label.toLowerCase()}`,
      ]
    }),
  )
}

/** The id of the control that has this name; ids are unique as long as a page has one form with it. */
export function fieldId(name: string): string {
  return `field-${name.replaceAll(/[^A-Za-z0-9]/g, '-')}`
}

/** What is wrong with a field, or undefined. */
export function useFieldError(name: string): string | undefined {
  return useContext(Errors)[name]
}

/** The button that sends the form. */
export function SubmitButton({
  children,
  pendingText = 'Saving …',
  name,
  value,
  quiet = false,
}: {
  readonly children: ReactNode
  readonly pendingText?: string
  readonly name?: string
  readonly value?: string
  readonly quiet?: boolean
}) {
  const pending = useContext(Pending)
  return (
    <button
      type="submit"
      className={quiet ? 'button' : 'button button-main'}
      disabled={pending}
      name={name}
      value={value}
    >
      {pending ? pendingText : children}
    </button>
  )
}
