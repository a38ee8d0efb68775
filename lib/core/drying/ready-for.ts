import type { DryingClocks } from '#core/drying/drying-clock'
import { filmFactor } from '#core/drying/film-factor'
import type { DryingCoat } from '#core/drying/judge-gap'
import { type Coated, openingOf } from '#core/drying/opening-of'
import { labelTimes } from '#core/drying/recoat-windows'
import { lengthOfTime } from '#core/time/length-of-time'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'

/**
 * What a coat may be asked to stand: sanding, handling (hardware back on, drawers back in), tape on it, a liner pasted
 * on it, stacking, the way to the buyer, and everything.
 */
export const uses = [
  'sand',
  'handle',
  'tape',
  'line',
  'stack',
  'deliver',
  'cure',
] as const
export type Use = (typeof uses)[number]

/** From when on a coat stands something. */
export type ReadyFor = {
  readonly use: Use
  /** The careful end of what the times and the air leave open. */
  readonly at: Instant
  /** Whether the label says so, or only what is usual. */
  readonly basis: 'label' | 'usual'
  /** Why then, as a sentence for the owner. */
  readonly reason: string
}

// What is usual where no label tells; common practice, no source.
const usualDays: Readonly<Partial<Record<Use, number>>> = {
  tape: 1,
  line: 7,
  stack: 7,
  deliver: 7,
}

const names: Readonly<Record<Use, string>> = {
  sand: 'To sand it',
  handle: 'To handle it, put hardware back on or drawers back in',
  tape: 'To put tape on it',
  line: 'To paste a liner on it',
  stack: 'To stack or lean anything on it',
  deliver: 'To wrap and deliver it',
  cure: 'To use it without care',
}

/**
 * From when on the last coat of a surface stands what comes after coating, in the order of `uses`; a use that nothing
 * tells the time of is left out.
 *
 * Sanding and handling follow the label and the air; tape, liner, stacking and delivery are never earlier than handling
 * and never later than the label's full cure would have them. Full cure is the label's own.
 */
export function readyFor(
  coated: Coated,
  coat: DryingCoat,
  clocks: DryingClocks,
): readonly ReadyFor[] {
  const { cureDays } = coat.label
  const cured =
    cureDays === undefined
      ? undefined
      : addMinutes(coated.latest, cureDays * minutesPerDay)
  const handled = byLabel('handle', coated, coat, clocks)
  const found: ReadyFor[] = []
  for (const use of uses) {
    const one = readyForUse(use)
    if (one !== undefined) found.push(one)
  }
  return found

  function readyForUse(use: Use): ReadyFor | undefined {
    switch (use) {
      case 'sand':
        return byLabel('sand', coated, coat, clocks)
      case 'handle':
        return handled
      case 'cure':
        return cured === undefined || cureDays === undefined
          ? undefined
          : {
              use,
              at: cured,
              basis: 'label',
              reason: `${names.cure}: ${lengthOfTime(cureDays * minutesPerDay, 'up')} by the label, longer where it stays cold or damp.`,
            }
      case 'tape':
      case 'line':
      case 'stack':
      case 'deliver':
        return byUse(use, coated, handled?.at, cured)
    }
  }
}

function byLabel(
  use: 'sand' | 'handle',
  coated: Coated,
  coat: DryingCoat,
  clocks: DryingClocks,
): ReadyFor | undefined {
  const times = labelTimes(coat.label, use)
  const window = times?.windows[0]
  if (times === undefined || window === undefined) return undefined
  const thickness =
    coat.filmRatio === undefined ? 1 : filmFactor(coat.filmRatio, use)
  const opening = openingOf(
    window.fromMinutes * thickness,
    coated,
    clocks(coat),
  )
  if (opening === undefined) return undefined
  const own = times.basis === use
  return {
    use,
    at: opening.latest,
    basis: 'label',
    reason: `${names[use]}: ${lengthOfTime(window.fromMinutes, 'up')} by the label${own ? '' : '’s recoat time, since it gives no other'}, in the air there was.`,
  }
}

function byUse(
  use: 'tape' | 'line' | 'stack' | 'deliver',
  coated: Coated,
  handled: Instant | undefined,
  cured: Instant | undefined,
): ReadyFor {
  const days = usualDays[use] ?? 0
  const usual = addMinutes(coated.latest, days * minutesPerDay)
  // A coat that is hard by its label needs no rule of thumb.
  const least = cured !== undefined && cured < usual ? cured : usual
  const at = handled !== undefined && handled > least ? handled : least
  const why =
    at === handled
      ? 'not before it may be handled'
      : at === cured
        ? 'it is cured then by its label'
        : `${lengthOfTime(days * minutesPerDay)} are usual where no label says more`
  return {
    use,
    at,
    basis: at === usual ? 'usual' : 'label',
    reason: `${names[use]}: ${why}.`,
  }
}
