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
    <div
      data-field={name}
      data-field-label={label}
      className="grid min-w-0 grid-cols-[minmax(0,1fr)] content-start"
    >
      <label htmlFor={id} className="row-start-1 mb-1.5 self-end font-semibold">
        {label}
        {optional && (
          <span className="text-ink-soft text-small font-normal">
            {' '}
            (optional)
          </span>
        )}
      </label>
      {hint !== undefined && (
        <p
          id={`${id}-hint`}
          className="text-ink-soft text-small row-start-2 mb-1.5"
        >
          {hint}
        </p>
      )}
      <div className="row-start-3">
        {children({
          id,
          'aria-invalid': error === undefined ? undefined : true,
          'aria-describedby': describedBy === '' ? undefined : describedBy,
        })}
      </div>
      {error !== undefined && (
        <p
          id={`${id}-error`}
          className="text-wet text-small row-start-4 mt-1.5 font-bold"
        >
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
  unitChoice,
  ...props
}: Shared &
  Control & {
    readonly unit?: string
    /** Stands beside the control instead of a unit that is fixed. */
    readonly unitChoice?: ReactNode
  }) {
  const { name, label, hint, optional, ...control } = props
  return (
    <Field {...pick({ name, label, hint, optional })}>
      {(described) => (
        <span className="flex flex-wrap items-center gap-x-1.5 gap-y-2">
          <input
            {...control}
            {...described}
            name={name}
            // With large text its unit goes below it before it is too narrow to type in.
            className={`input min-w-0 ${unitChoice === undefined ? 'flex-[1_1_3.75rem]' : 'flex-[1_1_5rem]'}`}
          />
          {unitChoice}
          {unit !== undefined && (
            <span className="text-ink-soft shrink-0">{unit}</span>
          )}
        </span>
      )}
    </Field>
  )
}

/** A length of time as it is typed. */
export type TypedDuration = {
  readonly amount: string
  readonly unit: 'min' | 'h' | 'days'
}

/** A length of time, in the unit that is chosen beside it. */
export function DurationField({
  amount,
  unit,
  ...shared
}: Shared & TypedDuration) {
  const { name, label } = shared
  return (
    <TextField
      {...shared}
      inputMode="decimal"
      defaultValue={amount}
      unitChoice={
        <UnitChoice
          name={`${name}.unit`}
          label={`Unit of ${label.toLowerCase()}`}
          units={['min', 'h', 'days']}
          defaultValue={unit}
        />
      }
    />
  )
}

/** The unit of a number, to be chosen beside it. */
export function UnitChoice({
  name,
  label,
  units,
  defaultValue,
}: {
  readonly name: string
  readonly label: string
  readonly units: readonly string[]
  readonly defaultValue: string
}) {
  return (
    <select
      name={name}
      aria-label={label}
      defaultValue={defaultValue}
      className="input flex-[0_0_6.5rem]"
    >
      {units.map((unit) => (
        <option key={unit} value={unit}>
          {unit.replaceAll('-', ' ')}
        </option>
      ))}
    </select>
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

type Option = { readonly value: string; readonly text: string }

/** One of several, out of a list that unfolds; in groups where some suit better than others. */
export function SelectField({
  name,
  label,
  hint,
  optional,
  options,
  groups = [],
  defaultValue,
  value,
  onChange,
}: Shared & {
  readonly options: readonly Option[]
  readonly groups?: readonly {
    readonly label: string
    readonly options: readonly Option[]
  }[]
  readonly defaultValue?: string
  /** Holds the choice where the options change under it. */
  readonly value?: string
  readonly onChange?: (value: string) => void
}) {
  return (
    <Field {...pick({ name, label, hint, optional })}>
      {(described) => (
        <select
          {...described}
          name={name}
          {...(value === undefined ? { defaultValue } : { value })}
          className="input"
          onChange={(event) => onChange?.(event.target.value)}
        >
          <Options options={options} />
          {groups.map((group) => (
            <optgroup key={group.label} label={group.label}>
              <Options options={group.options} />
            </optgroup>
          ))}
        </select>
      )}
    </Field>
  )
}

function Options({ options }: { readonly options: readonly Option[] }) {
  return options.map((option) => (
    <option key={option.value} value={option.value}>
      {option.text}
    </option>
  ))
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
      data-field={name}
      data-field-label={label}
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
