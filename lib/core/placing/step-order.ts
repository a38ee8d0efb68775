import type { StepKind } from '#core/journal/vocabulary'
import { stepKinds } from '#core/journal/vocabulary'

/** What has been done to a surface, as far as it bears on what comes next. */
export type SurfaceState = {
  readonly last?: StepKind
  /** The last step that laid down a film or a colour. */
  readonly film?: StepKind
  /** How many coats of that film there are. */
  readonly coats: number
}

/** How often one kind of step followed another on a surface, by {@link passageKey}. */
export type StepOrderCounts = ReadonlyMap<string, number>

/** A step that came first on its surface follows `begin`. */
export function passageKey(last: StepKind | undefined, next: StepKind): string {
  return `${last ?? 'begin'} ${next}`
}

/** What a part of a piece is, where its name tells: other steps are done to each. */
export type SurfaceSort = 'outside' | 'metal' | 'inside'

/** What a surface is, by its usual names; outside when its name says nothing. */
export function surfaceSort(name: string): SurfaceSort {
  if (/hardware|handle|knob|pull|hinge|lock|fitting/i.test(name)) return 'metal'
  if (/\b(?:interior|inside|drawers|drawer box|shelf|shelves)\b/i.test(name))
    return 'inside'
  return 'outside'
}

type Weights = Readonly<Partial<Record<StepKind, number>>>

const usual = 8
const common = 4
const sometimes = 1
const seldom = 0.2

/**
 * What usually follows each step on a surface: the order of a sound finish (prime before paint, stain on bare wood, a
 * clear coat last, wax at the very end) and the coats that are usual; common practice, no source. What breaks a rule of
 * the order is seldom, not impossible: it happens, and the rules of the finish speak of it then.
 */
const following: Readonly<Record<StepKind | 'begin', Weights>> = {
  begin: {
    clean: common,
    repair: sometimes,
    strip: common,
    sand: common,
    scuff: common,
    hardware: sometimes,
    prime: sometimes,
    coat: sometimes,
    condition: seldom,
    stain: seldom,
    seal: seldom,
    wax: seldom,
  },
  clean: {
    repair: sometimes,
    strip: sometimes,
    sand: common,
    scuff: common,
    prime: sometimes,
    coat: sometimes,
    seal: sometimes,
    wax: sometimes,
  },
  repair: { sand: usual, scuff: sometimes, clean: sometimes, prime: sometimes },
  strip: {
    sand: usual,
    clean: sometimes,
    strip: sometimes,
    repair: sometimes,
    condition: seldom,
    stain: seldom,
  },
  sand: {
    sand: sometimes,
    repair: seldom,
    clean: sometimes,
    condition: common,
    stain: common,
    prime: common,
    coat: sometimes,
    seal: sometimes,
  },
  scuff: {
    prime: usual,
    coat: common,
    seal: sometimes,
    clean: sometimes,
    glaze: seldom,
  },
  condition: { stain: usual, condition: seldom },
  prime: {
    prime: common,
    coat: common,
    sand: sometimes,
    scuff: sometimes,
    repair: seldom,
  },
  coat: {
    coat: usual,
    sand: sometimes,
    scuff: sometimes,
    seal: sometimes,
    glaze: sometimes,
    detail: sometimes,
    wax: sometimes,
  },
  stain: {
    seal: usual,
    stain: sometimes,
    wax: sometimes,
    glaze: seldom,
    coat: seldom,
  },
  glaze: { seal: usual, glaze: sometimes, wax: sometimes },
  seal: { seal: usual, sand: sometimes, scuff: sometimes, wax: sometimes },
  wax: { wax: common, detail: seldom },
  hardware: { hardware: usual, assemble: sometimes, clean: sometimes },
  liner: { liner: seldom, wax: seldom },
  detail: { seal: common, detail: common, wax: sometimes },
  assemble: { detail: sometimes, wax: sometimes },
}

/** How well each kind of step suits a part, beside 1 for the outside; common practice, no source. */
const suits: Readonly<Record<SurfaceSort, (kind: StepKind) => number>> = {
  outside: (kind) =>
    kind === 'hardware'
      ? 0
      : kind === 'liner' || kind === 'assemble'
        ? 0.05
        : 1,
  // Metal is taken off, cleaned and sprayed; the one word of the trade for it is hardware.
  metal: (kind) =>
    kind === 'hardware'
      ? 8
      : kind === 'clean' || kind === 'assemble'
        ? 0.5
        : 0.05,
  inside: (kind) =>
    kind === 'liner' ? 8 : kind === 'hardware' || kind === 'stain' ? 0.05 : 0.5,
}

/** How many coats of each film are usual, and how likely each further one is beside the table; common practice, no source. */
const usualCoats: Readonly<Partial<Record<StepKind, number>>> = {
  prime: 2,
  coat: 2,
  seal: 3,
}
const furtherCoat = 0.25
/** What the table above counts for beside what other jobs of the journal tell: so many observations a row. */
const tableCounts = 5
/** No kind is impossible on any surface: so much of a row is shared by all. */
const shared = 0.02

/**
 * How likely each kind of step is to come next on a surface; the values of all kinds sum up to 1.
 *
 * @param learnt what followed what in other jobs
 */
export function nextStepOdds(
  state: SurfaceState,
  sort: SurfaceSort,
  learnt: StepOrderCounts,
): ReadonlyMap<StepKind, number> {
  const row = rowFor(state)
  const rowSum = sumOf(stepKinds.map((kind) => row[kind] ?? 0))
  const weights = stepKinds.map((kind) => {
    const told = ((row[kind] ?? 0) / rowSum) * tableCounts
    const seen = learnt.get(passageKey(state.last, kind)) ?? 0
    const further =
      kind === state.film ? state.coats + 1 - (usualCoats[kind] ?? 1) : 0
    return (
      (told + seen + liner(kind, sort)) *
      suits[sort](kind) *
      (further > 0 ? furtherCoat ** further : 1)
    )
  })
  const sum = sumOf(weights)
  return new Map(
    stepKinds.map((kind, index) => [
      kind,
      ((1 - shared) * (weights[index] ?? 0)) / sum + shared / stepKinds.length,
    ]),
  )
}

/** A liner needs nothing before it. */
function liner(kind: StepKind, sort: SurfaceSort): number {
  return kind === 'liner' && sort === 'inside' ? sometimes : 0
}

/** After sanding between coats the next is what would follow the coat, and not a stain. */
function rowFor({ last, film }: SurfaceState): Weights {
  const isBetween = last === 'sand' || last === 'scuff' || last === 'clean'
  if (film === undefined || !isBetween) return following[last ?? 'begin']
  return { ...following[film], sand: 0, scuff: 0 }
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}

/** Leaves a film or a colour that later coats go on. */
const filmKinds: ReadonlySet<StepKind> = new Set([
  'prime',
  'coat',
  'stain',
  'glaze',
  'seal',
  'wax',
])

/** A surface after one more step on it. */
export function surfaceAfter(
  state: SurfaceState,
  kind: StepKind,
): SurfaceState {
  if (kind === 'strip') return { last: kind, coats: 0 }
  // The first takes it off; what follows are coats.
  if (kind === 'hardware') {
    return { last: kind, coats: state.last === kind ? state.coats + 1 : 0 }
  }
  if (!filmKinds.has(kind)) return { ...state, last: kind }
  return {
    last: kind,
    film: kind,
    coats: kind === state.film ? state.coats + 1 : 1,
  }
}

/** Whether a surface has all that is usual: two coats of paint or clear, wax, a liner, or hardware with two coats. */
export function isFinished(state: SurfaceState): boolean {
  const { last, film, coats } = state
  if (last === 'liner' || last === 'detail' || last === 'assemble') return true
  if (last === 'hardware') return coats >= 2
  if (last !== film) return false
  return film === 'wax' || ((film === 'coat' || film === 'seal') && coats >= 2)
}

/** An untouched surface. */
export const untouched: SurfaceState = { coats: 0 }
