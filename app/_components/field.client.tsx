'use client'

import type { InputHTMLAttributes, ReactNode } from 'react'
import { fieldId, useFieldError } from './action-form.client'

type Shared = {
  readonly name: string
  readonly label: string
  readonly hint?: string
  readonly optional?: boolean
}

type Described = {
  readonly id: string
  readonly 'aria-invalid': true | undefined
  readonly 'aria-describedby': string | undefined
}

/** A label, its hint, the control and what is wrong with it, tied together so that none can be forgotten. */
function Field({
  name,
  label,
  hint,
  optional = false,
  children,
}: Shared & { readonly children: (described: Described) => ReactNode }) {
  const error = useFieldError(name)
  const id = fieldId(name)
  const describedBy = [
    hint === undefined ? '' : `${id}-hint`,
    error === undefined ? '' : `${id}-error`,
  ]
    .filter((one) => one !== '')
    .join(' ')
  return (
    <div className="flex min-w-0 flex-col gap-1.5">
      <label htmlFor={id} className="font-semibold">
        {label}
        {optional && (
          <span className="text-ink-soft text-small font-normal">
            {' '}
            (optional)
          </span>
        )}
      </label>
      {hint !== undefined && (
        <p id={`${id}-hint`} className="text-ink-soft text-small">
          {hint}
        </p>
      )}
      {children({
        id,
        'aria-invalid': error === undefined ? undefined : true,
        'aria-describedby': describedBy === '' ? undefined : describedBy,
      })}
      {error !== undefined && (
        <p id={`${id}-error`} className="text-wet text-small font-bold">
          {error}
        </p>
      )}
    </div>
  )
}

type Control = Pick<
  InputHTMLAttributes<HTMLInputElement>,
  | 'type'
  | 'defaultValue'
  | 'placeholder'
  | 'inputMode'
  | 'step'
  | 'autoComplete'
  | 'list'
  | 'maxLength'
  | 'required'
>

/** A line of text, a number or a moment. */
export function TextField({
  unit,
  ...props
}: Shared & Control & { readonly unit?: string }) {
  const { name, label, hint, optional, ...control } = props
  return (
    <Field {...pick({ name, label, hint, optional })}>
      {(described) => (
        <span className="flex items-center gap-2">
          <input
            {...control}
            {...described}
            name={name}
            className="input min-w-0"
          />
          {unit !== undefined && (
            <span className="text-ink-soft shrink-0">{unit}</span>
          )}
        </span>
      )}
    </Field>
  )
}

/** Several lines of text. */
export function TextArea({
  name,
  label,
  hint,
  optional,
  rows = 3,
  defaultValue,
}: Shared & { readonly rows?: number; readonly defaultValue?: string }) {
  return (
    <Field {...pick({ name, label, hint, optional })}>
      {(described) => (
        <textarea
          {...described}
          name={name}
          rows={rows}
          defaultValue={defaultValue}
          className="input"
        />
      )}
    </Field>
  )
}

/** One of several, out of a list that unfolds. */
export function SelectField({
  name,
  label,
  hint,
  optional,
  options,
  defaultValue,
  onChange,
}: Shared & {
  readonly options: readonly {
    readonly value: string
    readonly text: string
  }[]
  readonly defaultValue?: string
  readonly onChange?: (value: string) => void
}) {
  return (
    <Field {...pick({ name, label, hint, optional })}>
      {(described) => (
        <select
          {...described}
          name={name}
          defaultValue={defaultValue}
          className="input"
          onChange={(event) => onChange?.(event.target.value)}
        >
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.text}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

/** Several choices under one question, each as large as its label. */
export function ChoiceGroup({
  name,
  label,
  hint,
  children,
}: Shared & { readonly children: ReactNode }) {
  const error = useFieldError(name)
  const id = fieldId(name)
  return (
    <fieldset
      id={id}
      tabIndex={-1}
      className="min-w-0"
      aria-describedby={error === undefined ? undefined : `${id}-error`}
    >
      <legend className="mb-1.5 font-semibold">{label}</legend>
      {hint !== undefined && (
        <p className="text-ink-soft text-small mb-1.5">{hint}</p>
      )}
      {children}
      {error !== undefined && (
        <p id={`${id}-error`} className="text-wet text-small mt-1.5 font-bold">
          {error}
        </p>
      )}
    </fieldset>
  )
}

function pick(shared: {
  readonly name: string
  readonly label: string
  readonly hint: string | undefined
  readonly optional: boolean | undefined
}): Shared {
  return {
    name: shared.name,
    label: shared.label,
    ...(shared.hint === undefined ? {} : { hint: shared.hint }),
    ...(shared.optional === undefined ? {} : { optional: shared.optional }),
  }
}
