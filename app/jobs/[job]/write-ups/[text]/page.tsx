import Link from 'next/link'
import { notFound } from 'next/navigation'
import { ownWordsKey, titleKey } from '#core/write-ups/with-edits'
import { photoOf } from '#core/write-ups/write-photo-words'
import {
  type EditState,
  type Sentence,
  type WriteUpName,
  writeUpNames,
} from '#core/write-ups/write-up'
import { now } from '#services/clock'
import { readEdits } from '#services/write-ups/read-edits'
import { readWriteUp } from '#services/write-ups/write-ups'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { requireLocalRequest } from '../../../../_session'
import { keepEditAction, removeEditAction } from './actions'

const names: Readonly<Record<WriteUpName, string>> = {
  listing: 'Sale listing',
  video: 'Video description',
  caption: 'Caption',
  care: 'Care card',
  report: 'Job report',
  photos: 'Photos, in words',
}

/** Every sentence of a text by itself, to be put in other words. */
export default async function RewordPage({
  params,
}: PageProps<'/jobs/[job]/write-ups/[text]'>) {
  await requireLocalRequest()
  const { job, text } = await params
  const name = writeUpNames.find((one) => one === text)
  if (name === undefined) notFound()
  const [writeUp, edits] = await Promise.all([
    readWriteUp(job, name, now(), { limit: 1_000_000 }),
    readEdits(job),
  ])
  if (writeUp === undefined) notFound()
  const own =
    edits.find((one) => one.writeUp === name && one.key === ownWordsKey)
      ?.words ?? ''
  const sentences = writeUp.paragraphs.flatMap((one) => one.sentences)
  const form = { job, name }
  return (
    <div className="flex max-w-2xl flex-col gap-8">
      <div>
        <h2 className="text-lead font-bold">Reword: {names[name]}</h2>
        <p className="text-ink-soft mt-1">
          Your words stay whatever the journal says. Where it has changed under
          them, that is said here, with the new wording beside yours. Empty a
          sentence to leave it out.
        </p>
        <Link
          prefetch={false}
          href={`/jobs/${job}/write-ups`}
          className="link inline-flex min-h-11 items-center"
        >
          Back to the write-ups
        </Link>
      </div>
      <ol className="flex flex-col gap-4">
        {writeUp.title !== '' && (
          <Line
            {...form}
            label="Title"
            sentence={{
              key: titleKey,
              text: writeUp.title,
              ...(writeUp.titleEdit && { edit: writeUp.titleEdit }),
            }}
          />
        )}
        {sentences
          .filter(({ key }) => key !== ownWordsKey)
          .map((sentence) => (
            <Line {...form} key={sentence.key} sentence={sentence} />
          ))}
        {writeUp.removed.map((sentence) => (
          <Line
            {...form}
            key={sentence.key}
            sentence={{ ...sentence, text: '' }}
          />
        ))}
        {name !== 'photos' && (
          <Line
            {...form}
            label="Words of your own"
            sentence={{ key: ownWordsKey, text: own }}
          />
        )}
      </ol>
      {writeUp.looseEdits.length > 0 && (
        <section aria-labelledby="loose">
          <h3 id="loose" className="font-bold">
            Your words for sentences that are gone
          </h3>
          <ul className="mt-3 flex flex-col gap-3">
            {writeUp.looseEdits.map(({ key, words, madeOn }) => (
              <li key={key} className="card flex flex-col gap-2 p-4">
                <p>{words === '' ? 'Left out.' : words}</p>
                <p className="text-ink-soft">It stood for: {madeOn.text}</p>
                <form action={removeEditAction.bind(null, job, name, key)}>
                  <button className="button">Throw it away</button>
                </form>
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}

type Told = Pick<Sentence, 'key' | 'text' | 'edit' | 'fixed'>

function Line({
  job,
  name,
  label,
  sentence,
}: {
  readonly job: string
  readonly name: WriteUpName
  readonly label?: string
  readonly sentence: Told
}) {
  const { key, text, edit, fixed } = sentence
  if (fixed) {
    return (
      <li className="card bg-well p-4">
        <p>{text}</p>
        <p className="text-ink-soft text-small mt-1">
          Stands as it is: a caution or a disclosure.
        </p>
      </li>
    )
  }
  return (
    <li
      className={`card flex flex-col gap-3 p-4 ${edit?.changed ? 'border-doubt border-2' : ''}`}
    >
      {name === 'photos' && (
        <img
          src={`/api/photos/${photoOf(key)}/thumb`}
          alt={edit?.offered ?? text}
          loading="lazy"
          className="bg-well h-40 max-w-full self-start object-contain"
        />
      )}
      {name === 'photos' && (
        <Link
          prefetch={false}
          href={`/jobs/${job}/photos/${photoOf(key)}`}
          className="link inline-flex min-h-11 items-center self-start"
        >
          Say what it shows
        </Link>
      )}
      {edit && <Marks edit={edit} words={text} />}
      <ActionForm
        action={keepEditAction.bind(null, job, name, key)}
        label={label ?? `Reword: ${edit?.offered ?? text}`}
        // What is said once it is kept stands beside the button; a refusal and the words have a line of their own.
        className="grid grid-cols-[auto_1fr] items-center gap-3 [&>label,&>[role=alert]]:col-span-2 [&>[role]]:m-0"
      >
        <label className="flex flex-col gap-1.5">
          <span className={label === undefined ? 'sr-only' : 'font-semibold'}>
            {label ?? 'Your words'}
          </span>
          <textarea
            name="words"
            rows={Math.min(6, Math.max(2, Math.ceil(text.length / 60)))}
            defaultValue={text}
            className="input min-h-12!"
          />
        </label>
        <div>
          <SubmitButton quiet>Keep these words</SubmitButton>
        </div>
      </ActionForm>
      {edit && (
        <form action={removeEditAction.bind(null, job, name, key)}>
          <button className="button">Take the journal’s wording</button>
        </form>
      )}
    </li>
  )
}

function Marks({
  edit,
  words,
}: {
  readonly edit: EditState
  readonly words: string
}) {
  return (
    <div>
      <p className={edit.changed ? 'text-doubt font-bold' : 'font-semibold'}>
        {edit.changed
          ? 'The journal has changed since you wrote this.'
          : words === ''
            ? 'Left out by you.'
            : 'In your words.'}
      </p>
      {edit.changed && (
        <p className="mt-1">
          <span className="text-ink-soft">It stood for: </span>
          {edit.formerText}
        </p>
      )}
      <p className="mt-1">
        <span className="text-ink-soft">The journal’s wording: </span>
        {edit.offered}
      </p>
    </div>
  )
}
