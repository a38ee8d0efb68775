import type { Journal, WorkshopSettings } from '#core/journal/journal'
import type { Product } from '#core/shelf/product'
import { dayInFull, timeOfDay } from '#core/time/moments'
import { startOfDay } from '#core/time/zone'
import type { ShownBurst } from '#services/placing/read-placing'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { placeParts, placingLine } from '../_placing-lines'
import { PlacingLines } from './placing-lines.client'

/** The photos that nobody has placed, a day a form: one tap places all that is proposed, each burst can be changed first. */
export function PlacingRuns({
  bursts,
  journal,
  products,
  workshop,
  confirm,
}: {
  readonly bursts: readonly ShownBurst[]
  readonly journal: Journal
  readonly products: readonly Product[]
  readonly workshop: WorkshopSettings
  readonly confirm: FormAction
}) {
  const photos = new Map(journal.photos.map((photo) => [photo.id, photo]))
  const days = new Map<string, ShownBurst[]>()
  for (const burst of bursts) {
    const at = photos.get(burst.photoIds[0] ?? '')?.taken.at
    if (at === undefined) continue
    const day = dayInFull(startOfDay(at, workshop.zone), workshop)
    days.set(day, [...(days.get(day) ?? []), burst])
  }
  if (days.size === 0) return null
  const parts = placeParts(journal, products)
  return (
    <section aria-labelledby="to-place" className="mb-8">
      <h2 id="to-place" className="text-lead font-bold">
        Not placed yet
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        Each line says what its photos may show. Change what is wrong, leave
        what you do not know, then place the rest in one tap. What is only a
        guess is left unless you choose it.
      </p>
      {[...days].map(([day, own]) => (
        <ActionForm
          key={day}
          action={confirm}
          label={`Photos of ${day}`}
          className="card mb-6 p-4"
        >
          <h3 className="mb-3 font-bold">{day}</h3>
          <PlacingLines
            lines={own.map((burst) =>
              placingLine(burst, parts, timeOf(burst, photos, workshop)),
            )}
            parts={parts}
          />
          <div className="mt-2 flex flex-wrap">
            <SubmitButton pendingText="Placing …">
              Place the photos of this day
            </SubmitButton>
          </div>
        </ActionForm>
      ))}
    </section>
  )
}

function timeOf(
  { photoIds }: ShownBurst,
  photos: ReadonlyMap<string, Journal['photos'][number]>,
  workshop: WorkshopSettings,
): string {
  const at = photos.get(photoIds[0] ?? '')?.taken.at
  return at === undefined ? '' : timeOfDay(at, workshop)
}
