'use client'

import { Fragment, useRef, useState } from 'react'
import { FileButton } from '../../_queue/file-button.client'
import { QueueList } from '../../_queue/queue-list.client'
import { useQueue } from '../../_queue/use-queue.client'
import {
  type SnapChoice,
  type SnapDoing,
  doingOf,
  idOfStep,
  withOver,
} from '../snap-choice'
import {
  chooseSnap,
  forgetCamera,
  sayDoing,
  snap,
  snapWithoutPhoto,
} from '../snap-memory'
import { useSnap } from '../use-snap.client'
import { OtherStep, type SnapForm } from './other-step.client'
import { SnapFindings } from './snap-findings.client'
import { SpokenNote } from './spoken-note.client'
import { StepNote } from './step-note.client'
import { Stepper } from './stepper.client'

const amounts = [
  5, 10, 20, 30, 40, 50, 75, 100, 125, 150, 175, 200, 250, 300, 350, 400, 500,
  600, 750, 1000, 1250, 1500, 2000, 2500, 3000, 5000,
]
const ounces = [
  0.5, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96, 128,
]
const fewAmounts = [0.1, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 15, 20]
const thinnings = [0, 1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 75, 100]
/** P grades of ISO 6344 that finishers use. */
const grits = [
  40, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 600, 800, 1000,
  1500, 2000,
]

/** The kinds of step that an abrasive is used for. */
const rubbing: readonly string[] = ['sand', 'scuff', 'strip', 'repair', 'clean']
const countedOut = ['l', 'kg', 'm', 'sheet', 'roll', 'piece']

function amountsIn(unit: string): readonly number[] {
  if (unit === 'us-fl-oz') return ounces
  return countedOut.includes(unit) ? fewAmounts : amounts
}

/** Everything about the next photo that is more than one tap: its step, how it is done, and what waits. */
export function SnapScreen({
  choices,
  form,
  job,
  usualUnit,
}: {
  readonly choices: readonly SnapChoice[]
  readonly form: SnapForm
  readonly job: string | undefined
  /** In which the workshop measures out what it was not said of. */
  readonly usualUnit: 'ml' | 'us-fl-oz'
}) {
  const memory = useSnap(choices, { job })
  const { chosen } = memory
  const queue = useQueue()
  const [other, setOther] = useState(false)
  // While another step is put together, nothing moves under the finger.
  const [listed, setListed] = useState<SnapChoice>()
  const inHand = other ? listed : chosen
  const next = useRef<HTMLDivElement>(null)
  const [said, setSaid] = useState('')
  const all =
    inHand === undefined || choices.some((one) => one.id === inHand.id)
      ? choices
      : [inHand, ...withoutStep(choices, idOfStep(inHand, queue.done))]
  const doing = doingOf(chosen, memory.doing)
  const amountUnit = doing.amountUnit ?? usualUnit
  const begins = chosen?.newStep !== undefined
  const wets = chosen?.newStep?.['product'] !== undefined
  const rubs =
    doing.grit !== undefined ||
    rubbing.includes(String(chosen?.newStep?.['kind']))
  function change(values: SnapDoing) {
    sayDoing({ ...doing, ...values })
  }
  return (
    <div className="flex max-w-2xl flex-col gap-6">
      <fieldset hidden={all.length === 0 && form.jobs.length === 0}>
        <legend className="text-lead mb-2 font-bold">What it is of</legend>
        <div className="flex flex-col gap-2">
          {all.map((one) => (
            <Fragment key={one.id}>
              <label className="choice min-h-16">
                <input
                  type="radio"
                  className="shrink-0"
                  name="choice"
                  checked={!other && one.id === chosen?.id}
                  onChange={() => {
                    setOther(false)
                    chooseSnap(one)
                  }}
                />
                <span className="min-w-0">
                  <span className="block">{one.title}</span>
                  <span className="text-ink-soft text-small block font-normal">
                    {[one.detail, one.why]
                      .filter((text) => text !== '')
                      .join(' · ')}
                  </span>
                </span>
              </label>
              {!other && one.id === chosen?.id && chosen.over !== undefined && (
                <NewOrMore
                  when={chosen.over.when}
                  isMore={!begins}
                  onSay={(isMore) => {
                    chooseSnap(withOver(chosen, isMore, choices))
                  }}
                />
              )}
            </Fragment>
          ))}
          {form.jobs.length > 0 && (
            <label className="choice min-h-16">
              <input
                type="radio"
                name="choice"
                checked={other}
                onChange={() => {
                  setListed(chosen)
                  setOther(true)
                }}
              />
              Another step
            </label>
          )}
        </div>
      </fieldset>
      {other && (
        <OtherStep
          form={form}
          job={job}
          onChoose={chooseSnap}
          onDone={() => {
            setOther(false)
            requestAnimationFrame(() => {
              next.current?.scrollIntoView({ block: 'start' })
              next.current?.focus({ preventScroll: true })
            })
          }}
        />
      )}
      {chosen !== undefined && (
        <div
          ref={next}
          tabIndex={-1}
          className="flex scroll-mt-4 flex-col gap-6 outline-none"
        >
          <SnapFindings
            choice={chosen}
            doing={doing}
            isOffered={choices.some((one) => one.id === chosen.id)}
          />
          {!other && (
            <>
              {begins && (
                <section
                  aria-label="How it is done"
                  className="flex flex-col gap-4"
                >
                  {wets && (
                    <>
                      <Stepper
                        label="Amount used"
                        unit={amountUnit === 'us-fl-oz' ? 'fl oz' : amountUnit}
                        value={doing.amount}
                        lastTime={chosen.doing.amount}
                        steps={amountsIn(amountUnit)}
                        onChange={(amount) => {
                          change({ amount, amountUnit })
                        }}
                      />
                      <Stepper
                        label="Thinned by"
                        unit="%"
                        value={doing.thinningPercent}
                        steps={thinnings}
                        onChange={(thinningPercent) => {
                          change({ thinningPercent })
                        }}
                      />
                    </>
                  )}
                  {rubs && (
                    <Stepper
                      label="Grit"
                      unit=""
                      value={doing.grit}
                      steps={grits}
                      onChange={(grit) => {
                        change({ grit })
                      }}
                    />
                  )}
                  <SpokenNote
                    note={doing.note ?? ''}
                    onChange={(note) => {
                      change({ note })
                    }}
                  />
                </section>
              )}
              <div className="flex flex-wrap gap-3">
                <FileButton
                  main
                  onFiles={(files) => {
                    void snap(files, chosen, doing)
                  }}
                  onOpen={() => void forgetCamera()}
                >
                  Choose photos
                </FileButton>
                {begins && (
                  <button
                    type="button"
                    className="button min-h-14 grow sm:grow-0"
                    onClick={() => {
                      void snapWithoutPhoto(chosen, doing).then(() => {
                        setSaid('Written down without a photo.')
                      })
                    }}
                  >
                    Write it down without a photo
                  </button>
                )}
              </div>
              <p role="status" className="text-sound font-bold empty:hidden">
                {said}
              </p>
              {!begins && chosen.step !== undefined && (
                <StepNote
                  key={chosen.step}
                  job={chosen.job}
                  step={chosen.step}
                />
              )}
            </>
          )}
        </div>
      )}
      <QueueList queue={queue} label="What waits on this phone" />
    </div>
  )
}

/** What is in hand is offered once. */
function withoutStep(
  choices: readonly SnapChoice[],
  step: string | undefined,
): readonly SnapChoice[] {
  if (step === undefined) return choices
  return choices.filter((one) => (one.step ?? one.over?.step) !== step)
}

/** Asks of a step that ended days ago whether the photo begins a new one. */
function NewOrMore({
  when,
  isMore,
  onSay,
}: {
  readonly when: string
  readonly isMore: boolean
  readonly onSay: (isMore: boolean) => void
}) {
  return (
    <fieldset className="border-late bg-late-soft rounded-card border-2 p-4">
      <legend className="sr-only">A new step or more of the old</legend>
      <p className="mb-3 font-bold">
        It was last worked on {when}. Is this a new step?
      </p>
      <div className="flex flex-wrap gap-2">
        {[
          { value: false, words: 'Yes, begin a new step' },
          { value: true, words: 'No, it is more of that one' },
        ].map(({ value, words }) => (
          <label key={words} className="choice">
            <input
              type="radio"
              name="over"
              checked={isMore === value}
              onChange={() => {
                onSay(value)
              }}
            />
            {words}
          </label>
        ))}
      </div>
      {isMore && (
        <p className="mt-3">
          That step then lasts from its first photo to this one.
        </p>
      )}
    </fieldset>
  )
}
