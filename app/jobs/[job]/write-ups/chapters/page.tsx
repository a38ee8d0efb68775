import Link from 'next/link'
import { notFound } from 'next/navigation'
import type { CaptionQuestion } from '#core/captions/ask-from-captions'
import type { Chapter } from '#core/captions/chapter'
import { type ChapterChange, changeKey } from '#core/captions/chapter-changes'
import { clockText } from '#core/captions/timestamp'
import type { Journal } from '#core/journal/journal'
import { readVideoChapters } from '#services/captions/captions'
import { readJournal } from '#services/journal/read-journal'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { TextArea } from '../../../../_components/field.client'
import { requireLocalRequest } from '../../../../_session'
import { stepName, surfacesWords } from '../../../../_words'
import { nextStepPath } from '../../../../_next-step-path'
import { CaptionUpload } from './_components/caption-upload.client'
import { ChapterList } from './_components/chapter-list.client'
import {
  removeCaptionsAction,
  setChaptersAction,
  settleQuestionAction,
  showCaptionsAction,
  takeChangeAction,
  typeMarksAction,
  unsetChaptersAction,
} from './actions'

export default async function ChaptersPage({
  params,
}: PageProps<'/jobs/[job]/write-ups/chapters'>) {
  await requireLocalRequest()
  const { job } = await params
  const journal = await readJournal(job)
  if (journal === undefined) notFound()
  const { chapters, isSet, changes, questions, cues } =
    await readVideoChapters(journal)
  const hasCaptions = cues.length > 0
  const stepWords = (id: string) => {
    const step = journal.steps.find((one) => one.id === id)
    return step === undefined
      ? ''
      : `${stepName(step.kind, step.surfaces[0]?.coat)}: ${surfacesWords(
          journal.pieces,
          step.surfaces.map((on) => on.surfaceId),
        )}`
  }
  return (
    <div className="flex max-w-3xl flex-col gap-8">
      <section aria-labelledby="chapters" className="flex flex-col gap-4">
        <h2 id="chapters" className="text-lead font-bold">
          Chapters of the video
        </h2>
        <p>
          {hasCaptions
            ? isSet
              ? 'As you set them. They stand in the video description.'
              : 'Found in the captions. Look at each start and title; they stand in the video description.'
            : 'Choose the caption file of the edited video, WebVTT (.vtt) or SubRip (.srt), and each step is looked for in what you say.'}
        </p>
        <CaptionUpload
          job={job}
          label={hasCaptions ? 'Other captions' : 'Choose captions'}
          isFirst={!hasCaptions}
          onKept={showCaptionsAction.bind(null, job)}
        />
        {hasCaptions && chapters.length === 0 && (
          <p className="border-doubt bg-doubt-soft rounded-card border-2 p-4">
            Fewer than three chapters were heard in these captions, so there are
            none. Write down more steps of this job, or type the chapters below.
          </p>
        )}
        {chapters.length > 0 && (
          <ChapterList
            key={chapters
              .map(({ seconds, title }) => `${seconds} ${title}`)
              .join('\n')}
            chapters={chapters.map((chapter) => ({
              key: `${chapter.seconds} ${chapter.title}`,
              seconds: chapter.seconds,
              title: chapter.title,
              step: chapter.stepId ?? '',
              sureness: surenessWords(chapter, isSet),
            }))}
            cues={cues}
            save={setChaptersAction.bind(null, job)}
          />
        )}
        <div className="flex flex-wrap gap-3">
          <Link
            prefetch={false}
            href={`/jobs/${job}/write-ups`}
            className="button"
          >
            To the video description
          </Link>
          {isSet && hasCaptions && (
            <form action={unsetChaptersAction.bind(null, job)}>
              <button className="button">Find them anew in the captions</button>
            </form>
          )}
        </div>
      </section>
      {changes.length > 0 && (
        <section aria-labelledby="changes" className="flex flex-col gap-4">
          <h2 id="changes" className="text-lead font-bold">
            What the captions would change
          </h2>
          <p>Your chapters stay as they are until you take a change.</p>
          <ul className="flex flex-col gap-3">
            {changes.map((change) => {
              const words = changeWords(change)
              return (
                <li key={changeKey(change)} className="card p-4">
                  <ActionForm
                    action={takeChangeAction.bind(null, job, changeKey(change))}
                    label={words.told}
                    className="flex flex-wrap items-center justify-between gap-3"
                  >
                    <p className="min-w-0 flex-1 basis-56">{words.told}</p>
                    <SubmitButton>{words.take}</SubmitButton>
                  </ActionForm>
                </li>
              )
            })}
          </ul>
        </section>
      )}
      {questions.length > 0 && (
        <section aria-labelledby="asked" className="flex flex-col gap-4">
          <h2 id="asked" className="text-lead font-bold">
            You said more than is written down
          </h2>
          <ul className="flex flex-col gap-3">
            {questions.map((question) => (
              <li
                key={`${question.fact} ${question.stepId}`}
                className="card flex flex-col gap-2 p-4"
              >
                <p className="font-bold">{stepWords(question.stepId)}</p>
                <p>{question.question}</p>
                <p className="text-ink-soft">
                  {clockText(question.seconds)} “… {question.words} …”
                </p>
                <div className="flex flex-wrap gap-3">
                  {answers(journal, question).map(({ path, words }) => (
                    <Link
                      key={path}
                      prefetch={false}
                      href={path}
                      className="button"
                    >
                      {words}
                    </Link>
                  ))}
                  <form
                    action={settleQuestionAction.bind(null, job, {
                      fact: question.fact,
                      step: question.stepId,
                    })}
                  >
                    <button className="button button-quiet">
                      It is not so
                    </button>
                  </form>
                </div>
              </li>
            ))}
          </ul>
        </section>
      )}
      <details open={!hasCaptions}>
        <summary className="link flex min-h-12 cursor-pointer items-center">
          Type the chapters
        </summary>
        <ActionForm
          action={typeMarksAction.bind(null, job)}
          label="Typed chapters"
          className="mt-2"
        >
          <TextArea
            name="marks"
            label="A line each: time, then title"
            defaultValue={chapters
              .map(({ seconds, title }) => `${clockText(seconds)} ${title}`)
              .join('\n')}
          />
          <p className="text-ink-soft mt-2 mb-4">
            The first at 0:00, each at least ten seconds long, at least three.
            Such as: 2:45 First coat
          </p>
          <SubmitButton>Use these chapters</SubmitButton>
        </ActionForm>
      </details>
      {(hasCaptions || isSet) && (
        <details>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            Remove captions and chapters
          </summary>
          <form action={removeCaptionsAction.bind(null, job)} className="mt-2">
            <button className="button">Remove them</button>
          </form>
        </details>
      )}
    </div>
  )
}

/** A change that the captions offer, and what the button that takes it says. */
function changeWords(change: ChapterChange): {
  readonly told: string
  readonly take: string
} {
  switch (change.kind) {
    case 'moved':
      return {
        told: `“${change.from.title}” is heard at ${clockText(change.to.seconds)}; yours begins at ${clockText(change.from.seconds)}.`,
        take: `Move it to ${clockText(change.to.seconds)}`,
      }
    case 'new':
      return {
        told: `“${change.to.title}” is heard at ${clockText(change.to.seconds)}, and is no chapter of yours.`,
        take: 'Add it',
      }
    case 'unheard':
      return {
        told: `“${change.from.title}” at ${clockText(change.from.seconds)} is not heard in these captions.`,
        take: 'Leave it out',
      }
  }
}

/** How sure a chapter's start is, in words: from the share of all ways to lay the steps that begin it there. */
function surenessWords(
  { stepId, confidence }: Chapter,
  isSet: boolean,
): string {
  if (isSet || stepId === undefined) return ''
  const percent = `${Math.round(confidence * 100)} %`
  if (confidence >= 0.9) return `Clearly heard (${percent})`
  return confidence >= 0.6
    ? `Probably here (${percent})`
    : `A guess (${percent}): listen`
}

/** Ways to a step's form with what was said put into its field, to be looked at and saved: one for each thing said. */
function answers(
  { job, steps }: Journal,
  { fact, stepId, values, seconds }: CaptionQuestion,
): readonly { readonly path: string; readonly words: string }[] {
  const filled = (name: string, value: string, words: string) => ({
    path: `/jobs/${job.id}/steps/${stepId}?${new URLSearchParams({
      said: clockText(seconds),
      [name]: value,
    }).toString()}`,
    words,
  })
  switch (fact) {
    case 'grit':
      return values.map((value) =>
        filled('grit', String(value), `Put P${value} into the step`),
      )
    case 'dilution':
      return values.map((value) =>
        filled(
          'thinningPercent',
          String(value),
          `Put ${value} % into the step`,
        ),
      )
    case 'dwell':
      return values.map((value) =>
        filled(
          'note',
          `Left on for ${value} min.`,
          `Put ${value} min into its note`,
        ),
      )
    case 'coats': {
      const on = steps.find(({ id }) => id === stepId)?.surfaces ?? []
      return [
        {
          path: nextStepPath(
            job.id,
            stepId,
            on.map(({ surfaceId }) => surfaceId),
          ),
          words: 'Write down another coat',
        },
      ]
    }
  }
}
