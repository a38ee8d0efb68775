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

/** What has no time of its own on any label. */
type Unlabelled = 'tape' | 'line' | 'stack' | 'deliver'

// What is usual where no label tells; common practice, no source.
const usualDays: Readonly<Record<Unlabelled, number>> = {
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

/** Why what is on no label waits for so long. Written once: it is the same for every coat. */
const reasons = {
  tape: reasonsOf('tape'),
  line: reasonsOf('line'),
  stack: reasonsOf('stack'),
  deliver: reasonsOf('deliver'),
}

function reasonsOf(use: Unlabelled) {
  const usual = lengthOfTime(usualDays[use] * minutesPerDay)
  return {
    handled: `${names[use]}: not before it may be handled.`,
    cured: `${names[use]}: it is cured then by its label.`,
    usual: `${names[use]}: ${usual} are usual where no label says more.`,
  }
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
  const found: Readonly<Record<Use, ReadyFor | undefined>> = {
    sand: byLabel('sand', coated, coat, clocks),
    handle: handled,
    tape: byUse('tape', coated, handled?.at, cured),
    line: byUse('line', coated, handled?.at, cured),
    stack: byUse('stack', coated, handled?.at, cured),
    deliver: byUse('deliver', coated, handled?.at, cured),
    cure:
      cured === undefined || cureDays === undefined
        ? undefined
        : {
            use: 'cure',
            at: cured,
            basis: 'label',
            reason: `${names.cure}: ${lengthOfTime(cureDays * minutesPerDay, 'up')} by the label, longer where it stays cold or damp.`,
          },
  }
  return uses.map((use) => found[use]).filter((one) => one !== undefined)
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
  use: Unlabelled,
  coated: Coated,
  handled: Instant | undefined,
  cured: Instant | undefined,
): ReadyFor {
  const usual = addMinutes(coated.latest, usualDays[use] * minutesPerDay)
  // A coat that is hard by its label needs no rule of thumb.
  const least = cured !== undefined && cured < usual ? cured : usual
  const at = handled !== undefined && handled > least ? handled : least
  const why = at === handled ? 'handled' : at === cured ? 'cured' : 'usual'
  return {
    use,
    at,
    basis: at === usual ? 'usual' : 'label',
    reason: reasons[use][why],
  }
}
