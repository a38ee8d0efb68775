import { notFound } from 'next/navigation'
import { moneyDigits } from '#core/money/format-money'
import { dayInFull } from '#core/time/moments'
import type { Instant } from '#core/units'
import { readBinnedParts } from '#services/bin/bin-parts'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'
import {
  ActionForm,
  SubmitButton,
} from '../../../_components/action-form.client'
import {
  SelectField,
  TextArea,
  TextField,
} from '../../../_components/field.client'
import {
  addPieceAction,
  addSurfaceAction,
  changeFactsAction,
  finishJobAction,
  handOverAction,
} from './actions'
import { RemoveSection } from './_components/remove-section'
import { localText } from '../../../_local-text'
import { requireLocalRequest } from '../../../_session'

export default async function DetailsPage({
  params,
}: PageProps<'/jobs/[job]/details'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, workshop, binned] = await Promise.all([
    readJournal(job),
    readWorkshop(),
    readBinnedParts(job),
  ])
  if (journal === undefined) notFound()
  const facts = journal.job
  const unit = workshop.units === 'us' ? 'in' : 'cm'
  return (
    <div className="flex max-w-2xl flex-col gap-10">
      <section aria-labelledby="facts">
        <h2 id="facts" className="text-lead mb-1 font-bold">
          What the listing tells
        </h2>
        <p className="text-ink-soft mb-4">
          Only what stands here and in the steps is ever claimed.
        </p>
        <ActionForm
          action={changeFactsAction.bind(null, job)}
          className="flex flex-col gap-5"
          label="Facts about the job"
        >
          <TextField
            name="title"
            label="Title"
            defaultValue={facts.title}
            maxLength={120}
          />
          <input
            type="hidden"
            name="pieceCount"
            value={journal.pieces.length}
          />
          <input type="hidden" name="unit" value={unit} />
          {journal.pieces.map((piece, index) => (
            <fieldset
              key={piece.id}
              data-field-group={piece.name}
              className="card flex min-w-0 flex-col gap-4 p-4"
            >
              <legend className="sr-only">{piece.name}</legend>
              <input
                type="hidden"
                name={`pieces.${index}.id`}
                value={piece.id}
              />
              <div className="field-row field-row-wide">
                <TextField
                  name={`pieces.${index}.name`}
                  label="Name"
                  defaultValue={piece.name}
                  maxLength={80}
                />
                <TextField
                  name={`pieces.${index}.kind`}
                  label="What it is"
                  defaultValue={piece.kind}
                  maxLength={60}
                />
              </div>
              <div className="field-row field-row-narrow">
                {sides.map(({ side, label }) => (
                  <TextField
                    key={side}
                    name={`pieces.${index}.dimensions.${side}`}
                    label={label}
                    unit={unit}
                    inputMode="decimal"
                    autoComplete="off"
                    defaultValue={lengthText(piece[`${side}Millimetres`], unit)}
                  />
                ))}
              </div>
              <TextField
                name={`pieces.${index}.material`}
                label="Material"
                hint="As you know it: oak veneer, pine."
                defaultValue={piece.material ?? ''}
                maxLength={120}
                optional
              />
              <div className="field-row field-row-wide">
                <TextField
                  name={`pieces.${index}.age`}
                  label="Age"
                  hint="As you know it: 1930s, about 1965."
                  defaultValue={piece.age ?? ''}
                  maxLength={80}
                  optional
                />
                <TextField
                  name={`pieces.${index}.ageKnownBy`}
                  label="What tells its age"
                  hint="A label, a date, its joints."
                  defaultValue={piece.ageKnownBy ?? ''}
                  maxLength={120}
                  optional
                />
                <TextField
                  name={`pieces.${index}.style`}
                  label="Style"
                  hint="One or two words, if it has one."
                  defaultValue={piece.style ?? ''}
                  maxLength={60}
                  optional
                />
                <SelectField
                  name={`pieces.${index}.liner`}
                  label="Drawer lining"
                  hint="Leave it open if there is none."
                  options={linings}
                  defaultValue={piece.liner ?? ''}
                />
              </div>
              <TextField
                name={`pieces.${index}.hardware`}
                label="Hardware"
                hint="Its own, cleaned, or new."
                defaultValue={piece.hardware ?? ''}
                maxLength={160}
                optional
              />
              <TextArea
                name={`pieces.${index}.flaws`}
                label="Flaws left"
                hint="What an honest seller names, one to a line: marks, repairs, smells. Write “none” if you found none."
                defaultValue={piece.flaws ?? ''}
                optional
              />
            </fieldset>
          ))}
          <TextField
            name="askingPrice"
            label="Asking price"
            unit={workshop.currency}
            inputMode="decimal"
            autoComplete="off"
            defaultValue={
              facts.askingPriceMinor === undefined
                ? ''
                : moneyDigits(facts.askingPriceMinor, workshop.currency)
            }
            optional
          />
          <TextArea
            name="collection"
            label="Collection"
            hint="Where and how the buyer gets it."
            rows={2}
            defaultValue={facts.collection ?? ''}
            optional
          />
          <TextField
            name="client"
            label="Made for"
            hint="The client, where somebody ordered it; the job report is for them."
            defaultValue={facts.client ?? ''}
            maxLength={120}
            optional
          />
          <TextArea
            name="brief"
            label="What was agreed with them"
            rows={2}
            defaultValue={facts.brief ?? ''}
            optional
          />
          <SubmitButton>Save the details</SubmitButton>
        </ActionForm>
      </section>
      <section aria-labelledby="more-pieces">
        <h2 id="more-pieces" className="text-lead mb-4 font-bold">
          More pieces and surfaces
        </h2>
        <div className="grid gap-6 sm:grid-cols-2">
          <ActionForm
            action={addSurfaceAction.bind(null, job)}
            className="flex flex-col gap-4"
            label="Add a surface"
          >
            <label className="flex flex-col gap-1.5 font-semibold">
              Piece
              <select name="piece" className="input">
                {journal.pieces.map((piece) => (
                  <option key={piece.id} value={piece.id}>
                    {piece.name}
                  </option>
                ))}
              </select>
            </label>
            <TextField name="surface" label="New surface" maxLength={60} />
            <SubmitButton quiet>Add the surface</SubmitButton>
          </ActionForm>
          <ActionForm
            action={addPieceAction.bind(null, job)}
            className="flex flex-col gap-4"
            label="Add a piece"
          >
            <TextField name="kind" label="New piece" maxLength={60} />
            <TextField
              name="surfaces"
              label="Its surfaces"
              hint="Separate them by commas."
              defaultValue="body"
            />
            <SubmitButton quiet>Add the piece</SubmitButton>
          </ActionForm>
        </div>
      </section>
      <section aria-labelledby="finished">
        <h2 id="finished" className="text-lead mb-2 font-bold">
          {facts.finishedAt === undefined
            ? 'Finished?'
            : `Finished on ${dayInFull(facts.finishedAt, workshop)}`}
        </h2>
        <p className="text-ink-soft mb-4 max-w-prose">
          A finished job leaves the bench once its surfaces have cured. It can
          be opened again.
        </p>
        <ActionForm
          action={handOverAction.bind(null, job)}
          label="Sold and delivered"
          className="mb-4 flex flex-col gap-3"
        >
          <p className="text-ink-soft">Leave a day empty until it has been.</p>
          <div className="field-row">
            <TextField
              name="sold"
              label="Sold on"
              type="date"
              defaultValue={dayText(facts.soldAt, workshop.zone)}
            />
            <TextField
              name="delivered"
              label="Delivered on"
              type="date"
              defaultValue={dayText(facts.deliveredAt, workshop.zone)}
            />
          </div>
          <div>
            <SubmitButton quiet>Save the dates</SubmitButton>
          </div>
        </ActionForm>
        <form
          action={finishJobAction.bind(
            null,
            job,
            facts.finishedAt === undefined,
          )}
        >
          <button className="button">
            {facts.finishedAt === undefined
              ? 'The job is finished'
              : 'Open it again'}
          </button>
        </form>
      </section>
      <RemoveSection
        job={job}
        pieces={journal.pieces}
        binned={binned}
        present={now()}
        style={workshop}
      />
    </div>
  )
}

function dayText(at: Instant | undefined, zone: string): string {
  return at === undefined ? '' : localText(at, zone).slice(0, 10)
}

const linings = [
  { value: '', text: 'Not said' },
  { value: 'removable', text: 'Can be taken out' },
  { value: 'permanent', text: 'Fixed for good' },
]

const sides = [
  { side: 'width', label: 'Width' },
  { side: 'depth', label: 'Depth' },
  { side: 'height', label: 'Height' },
] as const

function lengthText(
  millimetres: number | undefined,
  unit: 'cm' | 'in',
): string {
  if (millimetres === undefined) return ''
  const value = unit === 'cm' ? millimetres / 10 : millimetres / 25.4
  return String(Math.round(value * 100) / 100)
}
