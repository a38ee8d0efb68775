import Link from 'next/link'
import { notFound } from 'next/navigation'
import { colourNames } from '#core/colour/colour-names'
import type { Photo } from '#core/journal/journal'
import { stepWords } from '#core/portfolio/show-piece'
import { pairNames } from '#core/pairs/pair-names'
import { describePhoto } from '#core/write-ups/describe-photo'
import { priceTag } from '#core/write-ups/price-text'
import { now } from '#services/clock'
import { findPairsLater } from '#services/pairs/pairs'
import { readDraft } from '#services/portfolio/drafts'
import { readPublishedOfJob } from '#services/portfolio/published'
import { readPortfolioHead } from '#services/portfolio/settings'
import { readWorkshop } from '#services/workshop/workshop'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import {
  SelectField,
  TextArea,
  TextField,
} from '../../../../_components/field.client'
import { requireLocalRequest } from '../../../../_session'
import { keepDraftAction, publishAction, unpublishAction } from '../actions'
import { PictureChoices, Toggle } from './_components/choice-fields'
import { Embeds } from './_components/embeds'
import {
  DraftForm,
  OnceSaved,
  UnsavedDraft,
} from './_components/unsaved-draft.client'

export default async function PiecePortfolioPage({
  params,
}: PageProps<'/jobs/[job]/portfolio/[piece]'>) {
  await requireLocalRequest()
  const { job, piece: id } = await params
  const [read, out, head, workshop] = await Promise.all([
    readDraft(job, id),
    readPublishedOfJob(job),
    readPortfolioHead(),
    readWorkshop(),
  ])
  if (!read.ok) notFound()
  const draft = read.value
  const { journal, piece, choice } = draft
  const alone = { ...journal, pieces: [piece] }
  const names = pairNames(journal, draft.pairs)
  const choiceOfPhoto = (photo: Photo) => ({
    id: photo.id,
    words: describePhoto(alone, photo),
    photos: [photo.id],
  })
  const later = await findPairsLater(job, now())
  const { askingPriceMinor, soldAt } = journal.job
  // A job has one price; whoever sells its pieces apart must not ask it for each.
  const together =
    journal.pieces.length > 1 ? ', for all pieces of the job' : ''
  const page = out.get(id)
  return (
    <UnsavedDraft>
      <div className="flex flex-col gap-10">
        <section aria-labelledby="state">
          <h2
            id="state"
            className="text-title font-bold first-letter:uppercase"
          >
            {piece.name}
          </h2>
          <p className="mb-4 max-w-prose">
            {page === undefined
              ? 'Not out: nobody but you sees anything of it.'
              : draft.hasChanged
                ? 'Out. The draft differs from what visitors see; publish it again to show the change.'
                : 'Out, as the draft shows it.'}
          </p>
          <div className="flex flex-wrap items-start gap-3">
            <OnceSaved>
              <a
                href={`/jobs/${job}/portfolio/${id}/preview`}
                target="_blank"
                className="button"
              >
                See it as visitors will
              </a>
              <ActionForm
                action={publishAction.bind(null, job, id, draft.seen)}
                label="Publish"
              >
                <SubmitButton pendingText="Making its pictures …">
                  {page === undefined ? 'Publish it' : 'Publish it again'}
                </SubmitButton>
              </ActionForm>
            </OnceSaved>
            {page !== undefined && (
              <a href={`/portfolio/${page.slug}`} className="button">
                See what is out
              </a>
            )}
            {page !== undefined && (
              <ActionForm
                action={unpublishAction.bind(null, job, id)}
                label="Take down"
              >
                <SubmitButton quiet pendingText="Taking it down …">
                  Take it down
                </SubmitButton>
              </ActionForm>
            )}
          </div>
        </section>
        <section aria-labelledby="draft">
          <h2 id="draft" className="text-lead mb-4 font-bold">
            What to show
          </h2>
          {later.ok && later.value && (
            <p role="status" className="mb-4 font-semibold">
              Pairs are still being found; look at this page again in a minute.
            </p>
          )}
          <DraftForm action={keepDraftAction.bind(null, job, id)}>
            <TextField
              name="title"
              label="Title"
              defaultValue={choice.title}
              maxLength={120}
            />
            <TextArea
              name="story"
              label="Story"
              hint="Where it came from, what you did and why. An empty line starts a paragraph."
              rows={5}
              defaultValue={choice.story}
              optional
            />
            <PictureChoices
              name="pairs"
              legend="Before and after"
              hint="The first one is shown large."
              choices={draft.pairs.map((pair, index) => ({
                id: pair.id,
                words: names[index]?.name ?? 'pair',
                photos: [pair.before, pair.after],
              }))}
              chosen={choice.pairs}
            />
            <PictureChoices
              name="photos"
              legend="Pictures"
              choices={draft.photos.filter(isAfter).map(choiceOfPhoto)}
              chosen={choice.photos}
            />
            <details className="card px-4">
              <summary className="flex min-h-12 cursor-pointer items-center font-bold">
                Pictures from before and during the work
              </summary>
              <div className="pb-4">
                <PictureChoices
                  name="photos"
                  legend="From before and during the work"
                  choices={draft.photos
                    .filter((photo) => !isAfter(photo))
                    .map(choiceOfPhoto)}
                  chosen={choice.photos}
                />
              </div>
            </details>
            <PictureChoices
              name="steps"
              legend="How it was made"
              hint="Each with its last photo. Notes and times are not shown."
              choices={draft.steps.map((step) => {
                const last = step.photoIds.at(-1)
                return {
                  id: step.id,
                  words: stepWords(step, piece),
                  photos: last === undefined ? [] : [last],
                }
              })}
              chosen={choice.steps}
            />
            <fieldset>
              <legend className="mb-1.5 font-semibold">And also</legend>
              <div className="flex flex-wrap gap-3">
                <Toggle name="finish" chosen={choice.finish}>
                  Its finish, in a sentence
                </Toggle>
                <Toggle name="size" chosen={choice.size}>
                  Its size
                </Toggle>
                <Toggle name="materials" chosen={choice.materials}>
                  Names of what went on it
                </Toggle>
                <Toggle name="contact" chosen={choice.contact}>
                  How to reach you
                </Toggle>
              </div>
              {head.contact.length === 0 && (
                <p className="text-ink-soft text-small mt-2">
                  How to reach you is written down in{' '}
                  <Link
                    prefetch={false}
                    href="/workshop#portfolio"
                    className="link"
                  >
                    Workshop
                  </Link>
                  .
                </p>
              )}
            </fieldset>
            <div className="field-row field-row-wide">
              <SelectField
                name="price"
                label="Price"
                options={[
                  { value: 'none', text: 'Not shown' },
                  {
                    value: 'asking',
                    text:
                      soldAt !== undefined
                        ? 'What you ask (it is sold: “Sold” is shown)'
                        : askingPriceMinor === undefined
                          ? 'What you ask (not written down yet)'
                          : `What you ask: ${priceTag(askingPriceMinor, workshop.currency)}${together}`,
                  },
                  { value: 'sold', text: 'Sold' },
                ]}
                defaultValue={choice.price}
              />
              <SelectField
                name="whoseColours"
                label="Its colours"
                options={[
                  { value: 'found', text: 'As its pictures tell' },
                  { value: 'own', text: 'As chosen here' },
                ]}
                defaultValue={choice.colours === undefined ? 'found' : 'own'}
              />
            </div>
            <fieldset>
              <legend className="mb-1.5 font-semibold">
                Colours, where you choose them
              </legend>
              <div className="flex flex-wrap gap-2">
                {colourNames.map((name) => (
                  <label key={name} className="choice">
                    <input
                      type="checkbox"
                      name="colours"
                      value={name}
                      defaultChecked={choice.colours?.includes(name) ?? false}
                    />
                    <span>{name}</span>
                  </label>
                ))}
              </div>
            </fieldset>
          </DraftForm>
        </section>
        {page !== undefined && <Embeds piece={page} head={head} />}
      </div>
    </UnsavedDraft>
  )
}

function isAfter({ role }: Photo): boolean {
  return role === 'after'
}
