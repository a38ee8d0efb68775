'use client'

import { type ReactNode, useEffect, useRef, useState } from 'react'
import {
  ActionForm,
  type FormAction,
  type FormState,
  SubmitButton,
} from '../../../../_components/action-form.client'
import {
  ChoiceGroup,
  SelectField,
  TextField,
} from '../../../../_components/field.client'
import { UsualViews, viewField } from '../../../../_components/usual-views'
import type { DraftFinding } from '../../../../_components/draft-findings'
import {
  type StepChoices,
  StepFields,
} from '../../_components/step-fields.client'
import { useBackCloses } from '../../../../_components/use-back-closes.client'
import { noValues } from '../../_no-values'

/** A photo as the board shows it: all words are made already. */
export type BoardPhoto = {
  readonly id: string
  readonly day: string
  readonly time: string
  /** Why the time may be off; empty when the photo says it well. */
  readonly sure: string
  readonly role: string
  /** Whether anybody has said what it shows. */
  readonly placed: boolean
  readonly shows: string
  readonly surfaces: string
  readonly alt: string
  readonly warnings: readonly string[]
}

/** All photos of a job in order of time; tap some, then say what they show. */
export function PhotoBoard({
  photos,
  steps,
  choices,
  judgeDraft,
  addStep,
  placePhotos,
}: {
  readonly photos: readonly BoardPhoto[]
  readonly steps: readonly { readonly id: string; readonly name: string }[]
  readonly choices: StepChoices
  readonly judgeDraft: (form: FormData) => Promise<readonly DraftFinding[]>
  readonly addStep: FormAction
  readonly placePhotos: FormAction
}) {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set())
  const [said, setSaid] = useState('')
  const dialog = useRef<HTMLDialogElement>(null)
  const [opened, setOpened] = useState(0)
  const panel = useBackCloses(dialog)

  function toggle(id: string) {
    // From what is chosen by then: a tap may come while a choice that was just saved is still being let go.
    setChosen((before) => {
      const next = new Set(before)
      if (!next.delete(id)) next.add(id)
      return next
    })
  }

  /** Runs an action; once it has worked, the choice is done with. */
  function closing(action: FormAction): FormAction {
    return async (previous, form): Promise<FormState> => {
      for (const id of chosen) form.append('photos', id)
      const state = await action(previous, form)
      if (state.outcome === 'saved') {
        panel.close()
        setChosen(new Set())
        setSaid(state.message ?? '')
      }
      return state
    }
  }

  const days = [...new Set(photos.map((photo) => photo.day))]
  const unplaced = photos.filter((photo) => !photo.placed)
  return (
    <div>
      <div className="mb-4 flex flex-wrap items-center gap-x-4 gap-y-2">
        <p className="text-ink-soft grow">
          {photos.length} {photos.length === 1 ? 'photo' : 'photos'}, in order
          of time. Tap some, then say what they show.
        </p>
        {unplaced.length > 0 && (
          <button
            type="button"
            className="button"
            onClick={() => {
              setChosen(new Set(unplaced.map((photo) => photo.id)))
            }}
          >
            Choose the {unplaced.length} not placed yet
          </button>
        )}
      </div>
      <p role="status" className="text-sound min-h-6 font-bold">
        {said}
      </p>
      {days.map((day) => (
        <section key={day} aria-label={day} className="mb-6">
          <h2 className="mb-2 font-bold">{day}</h2>
          <ul className="grid grid-cols-[repeat(auto-fill,minmax(min(100%,8.5rem),1fr))] gap-3 sm:grid-cols-3 md:grid-cols-4 lg:grid-cols-5">
            {photos
              .filter((photo) => photo.day === day)
              .map((photo) => (
                <li key={photo.id}>
                  <PhotoTile
                    photo={photo}
                    chosen={chosen.has(photo.id)}
                    onToggle={() => {
                      toggle(photo.id)
                    }}
                  />
                </li>
              ))}
          </ul>
        </section>
      ))}
      {chosen.size > 0 && (
        <div className="border-line-strong bg-paper fixed inset-x-0 bottom-(--bar) z-30 border-t-2 p-3 shadow-lg sm:sticky sm:bottom-4 sm:mx-0 sm:rounded-(--radius-card) sm:border-2">
          <div className="mx-auto flex max-w-6xl flex-wrap items-center justify-between gap-2">
            <p aria-live="polite" className="font-bold">
              {chosen.size} chosen
            </p>
            <div className="flex gap-2">
              <button
                type="button"
                className="button button-quiet"
                onClick={() => {
                  setChosen(new Set())
                }}
              >
                Choose none
              </button>
              <button
                type="button"
                className="button button-main"
                onClick={() => {
                  setOpened(opened + 1)
                  panel.open()
                }}
              >
                Say what they show
              </button>
            </div>
          </div>
        </div>
      )}
      <dialog
        ref={dialog}
        onCancel={(event) => {
          event.preventDefault()
          panel.close()
        }}
        aria-labelledby="placing-title"
        className="bg-ground text-ink m-0 h-dvh max-h-none w-full max-w-none overflow-y-auto p-0 backdrop:bg-black/60 sm:m-auto sm:h-auto sm:max-h-[90dvh] sm:w-[44rem] panel-edge"
      >
        {/* A new choice begins with empty forms. */}
        {chosen.size > 0 && (
          <PlacingForms
            key={opened}
            count={chosen.size}
            begins={
              steps.length === 0 &&
              !photos.some((photo) => photo.role === 'before')
            }
            steps={steps}
            choices={choices}
            judgeDraft={(form) => {
              for (const id of chosen) form.append('photos', id)
              return judgeDraft(form)
            }}
            addStep={closing(addStep)}
            placePhotos={closing(placePhotos)}
            onClose={panel.close}
          />
        )}
      </dialog>
    </div>
  )
}

function PhotoTile({
  photo,
  chosen,
  onToggle,
}: {
  readonly photo: BoardPhoto
  readonly chosen: boolean
  readonly onToggle: () => void
}) {
  return (
    <div
      className={`card overflow-hidden ${chosen ? 'ring-press ring-4' : ''}`}
    >
      <button
        type="button"
        aria-pressed={chosen}
        aria-label={photo.alt}
        onClick={onToggle}
        className="relative block w-full cursor-pointer"
      >
        <img
          src={`/api/photos/${photo.id}/thumb`}
          alt=""
          loading="lazy"
          width={320}
          height={240}
          className="bg-well aspect-[4/3] w-full object-cover"
        />
        <span
          aria-hidden="true"
          className={`border-press absolute top-2 left-2 flex size-8 items-center justify-center rounded-full border-2 ${chosen ? 'bg-press text-press-ink' : 'bg-paper/85 text-transparent'}`}
        >
          <svg viewBox="0 0 24 24" className="size-5">
            <path
              d="M5 12.500l4.500 4.500L19 7.500"
              fill="none"
              stroke="currentColor"
              strokeWidth="3"
            />
          </svg>
        </span>
      </button>
      <div className="flex flex-col p-2">
        <span className="flex items-baseline justify-between gap-2">
          <span className="font-bold">{photo.time}</span>
          <a
            href={`photos/${photo.id}`}
            className="link text-small -my-2 inline-flex min-h-11 items-center px-1"
          >
            Open
            <span className="sr-only"> {photo.alt}</span>
          </a>
        </span>
        <span className={photo.placed ? '' : 'text-late font-bold'}>
          {photo.placed ? photo.shows : 'Not placed yet'}
        </span>
        {photo.surfaces !== '' && (
          <span className="text-ink-soft text-small">{photo.surfaces}</span>
        )}
        {photo.sure !== '' && (
          <span className="text-ink-soft text-small">Time: {photo.sure}</span>
        )}
        {photo.warnings.map((warning) => (
          <span key={warning} className="text-late text-small">
            {warning}
          </span>
        ))}
      </div>
    </div>
  )
}

/** What saves stays in reach however long the form is. */
function PanelFoot({ children }: { readonly children: ReactNode }) {
  return (
    <div className="border-line bg-ground sticky bottom-0 z-10 -mx-4 mt-5 border-t px-4 py-3 sm:-mx-6 sm:px-6">
      {children}
    </div>
  )
}

function PlacingForms({
  count,
  begins,
  steps,
  choices,
  judgeDraft,
  addStep,
  placePhotos,
  onClose,
}: {
  readonly count: number
  /** Nothing is placed yet: what comes first is the before photos. */
  readonly begins: boolean
  readonly steps: readonly { readonly id: string; readonly name: string }[]
  readonly choices: StepChoices
  readonly judgeDraft: (form: FormData) => Promise<readonly DraftFinding[]>
  readonly addStep: FormAction
  readonly placePhotos: FormAction
  readonly onClose: () => void
}) {
  const [shows, setShows] = useState<'view' | 'step' | 'known'>(
    begins ? 'view' : 'step',
  )
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    heading.current?.focus()
  }, [])
  const what = [
    { value: 'view' as const, name: 'Before or after' },
    { value: 'step' as const, name: 'A new step' },
    ...(steps.length === 0
      ? []
      : [{ value: 'known' as const, name: 'A step already here' }]),
  ]
  return (
    <div className="p-4 sm:p-6">
      <div className="mb-4 flex items-start justify-between gap-3">
        <h2
          ref={heading}
          tabIndex={-1}
          id="placing-title"
          className="text-title font-bold outline-none"
        >
          What {count === 1 ? 'does this photo' : `do these ${count} photos`}{' '}
          show?
        </h2>
        <button type="button" className="button" onClick={onClose}>
          Close
        </button>
      </div>
      <div
        role="radiogroup"
        aria-label="What they show"
        className="mb-5 flex flex-wrap gap-2"
      >
        {what.map((one) => (
          <label key={one.value} className="choice">
            <input
              type="radio"
              name="shows"
              checked={shows === one.value}
              onChange={() => {
                setShows(one.value)
              }}
            />
            {one.name}
          </label>
        ))}
      </div>
      {shows === 'step' && (
        <ActionForm action={addStep} label="A new step">
          <StepFields
            choices={choices}
            values={noValues}
            judgeDraft={judgeDraft}
          />
          <PanelFoot>
            <SubmitButton>Save the step</SubmitButton>
          </PanelFoot>
        </ActionForm>
      )}
      {shows === 'view' && (
        <ActionForm
          action={placePhotos}
          label="Before or after"
          className="flex flex-col gap-5"
        >
          <ChoiceGroup name="role" label="When">
            <div className="flex flex-wrap gap-2">
              {['before', 'after', 'progress'].map((role) => (
                <label key={role} className="choice capitalize">
                  <input
                    type="radio"
                    name="role"
                    value={role}
                    defaultChecked={begins && role === 'before'}
                  />
                  {role}
                </label>
              ))}
            </div>
          </ChoiceGroup>
          <TextField
            {...viewField}
            label="View"
            hint="Before and after photos of one view make a pair."
            optional
          />
          <UsualViews />
          <ChoiceGroup name="surfaces" label="Surfaces it shows">
            <div className="flex flex-wrap gap-2">
              {choices.pieces.flatMap((piece) =>
                piece.surfaces.map((surface) => (
                  <label key={surface.id} className="choice">
                    <input type="checkbox" name="surfaces" value={surface.id} />
                    {choices.pieces.length > 1 ? `${piece.name} ` : ''}
                    {surface.name}
                  </label>
                )),
              )}
            </div>
          </ChoiceGroup>
          <PanelFoot>
            <SubmitButton>Save</SubmitButton>
          </PanelFoot>
        </ActionForm>
      )}
      {shows === 'known' && (
        <ActionForm
          action={placePhotos}
          label="A step already here"
          className="flex flex-col gap-5"
        >
          <SelectField
            name="step"
            label="Step"
            options={steps.map((step) => ({ value: step.id, text: step.name }))}
          />
          <PanelFoot>
            <SubmitButton>Add to the step</SubmitButton>
          </PanelFoot>
        </ActionForm>
      )}
    </div>
  )
}
