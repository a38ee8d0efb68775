import type { DryCheck, Purpose } from '#core/drying/dry-check'
import type { Label, RecoatWindow } from '#core/shelf/product'
import { minutes } from '#core/units'

/** How the surface was prepared between two coats. Sanding counts as scuffing too. */
export type Preparation = 'sand' | 'scuff'

/** What a label says about the step that comes next. */
export type LabelTimes = {
  /** In order of their starts; where all have an end, one more that only a scuff opens. */
  readonly windows: readonly TimeWindow[]
  /** The stretches in which the windows are open, by how the surface was prepared. */
  readonly open: Readonly<Record<Preparation | 'none', readonly OpenStretch[]>>
  /** Which of the label's times these are: another one where the label lacks the one asked for. */
  readonly basis: Purpose
  /** False when the label gives a latest time only. */
  readonly hasMinimum: boolean
  /** Whether any of the windows closes. */
  readonly hasEnd: boolean
}

/** A recoat window with its end spelled out, in minutes of the label. */
export type TimeWindow = {
  readonly fromMinutes: number
  /** Infinity: no end. */
  readonly toMinutes: number
  readonly needs?: Preparation
  /** On the label itself; otherwise it follows from the trade's rule that a scuff opens a passed window again. */
  readonly isStated: boolean
  /** What is shown of it: its start where the label gives a least time, and its end where it has one. */
  readonly shown: DryCheck['label']
}

/**
 * The windows in which the label allows the next coat.
 *
 * `recoatWindows`, where given, are the whole word; `recoatMinutes` and `recoatByMinutes` are the usual case
 * of one window.
 */
export function recoatWindows(label: Label): readonly RecoatWindow[] {
  if (label.recoatWindows !== undefined && label.recoatWindows.length > 0) {
    return label.recoatWindows
  }
  if (label.recoatMinutes === undefined && label.recoatByMinutes === undefined)
    return []
  return [
    {
      fromMinutes: label.recoatMinutes ?? 0,
      ...(label.recoatByMinutes !== undefined && {
        toMinutes: label.recoatByMinutes,
      }),
    },
  ]
}

/**
 * What the label says about the next step; undefined when it says nothing.
 *
 * Without a time of their own, sanding and handling fall back to the recoat time: to the latest of the
 * windows' starts where there are several, since wet on wet is neither sanded nor handled.
 */
export function labelTimes(
  label: Label,
  purpose: Purpose,
): LabelTimes | undefined {
  const kept = keptTimes.get(label) ?? {}
  keptTimes.set(label, kept)
  return (kept[purpose] ??= { times: readTimes(label, purpose) }).times
}

/** What labels said: a label is asked for every gap, and its word never changes. */
const keptTimes = new WeakMap<
  Label,
  Partial<Record<Purpose, { readonly times: LabelTimes | undefined }>>
>()

function readTimes(label: Label, purpose: Purpose): LabelTimes | undefined {
  if (purpose === 'recoat') return recoatTimes(label)
  const own = purpose === 'sand' ? label.sandMinutes : label.handleMinutes
  if (own !== undefined) return leastOnly(own, purpose)
  if (label.recoatMinutes === undefined && label.recoatWindows === undefined)
    return undefined
  const starts = recoatWindows(label).map((window) => window.fromMinutes)
  return starts.length === 0
    ? undefined
    : leastOnly(Math.max(...starts), 'recoat')
}

function recoatTimes(label: Label): LabelTimes | undefined {
  const stated = recoatWindows(label)
    .map((window): PlainWindow => ({
      fromMinutes: window.fromMinutes,
      toMinutes: window.toMinutes ?? Infinity,
      ...(window.needs !== undefined && { needs: window.needs }),
      isStated: true,
    }))
    .sort((one, other) => one.fromMinutes - other.fromMinutes)
  const last = stated.at(-1)
  if (last === undefined) return undefined
  return labelTimesOf(
    stated.some((window) => window.toMinutes === Infinity)
      ? stated
      : [
          ...stated,
          {
            fromMinutes: last.fromMinutes,
            toMinutes: Infinity,
            needs: 'scuff',
            isStated: false,
          },
        ],
    'recoat',
    label.recoatMinutes !== undefined || (label.recoatWindows?.length ?? 0) > 0,
  )
}

function leastOnly(fromMinutes: number, basis: Purpose): LabelTimes {
  return labelTimesOf(
    [{ fromMinutes, toMinutes: Infinity, isStated: true }],
    basis,
    true,
  )
}

/** A stretch of the label's minutes in which the next coat may go on. */
export type OpenStretch = { readonly from: number; readonly to: number }

/** Whether a window counts, given how the surface was prepared. */
export function isOpenTo(
  window: TimeWindow,
  prepared: Preparation | undefined,
): boolean {
  return (
    window.needs === undefined ||
    prepared === 'sand' ||
    window.needs === prepared
  )
}

/**
 * The window before a later one that the label itself gives and that had closed after so long a wait; undefined where none
 * had. In between nothing may go on.
 *
 * @param fromMinutes the start of the later one
 * @param waitedMinutes on the clock of recoat windows
 */
export function closedBefore(
  windows: readonly TimeWindow[],
  fromMinutes: number,
  waitedMinutes: number,
  prepared: Preparation | undefined,
): TimeWindow | undefined {
  return windows.findLast(
    (one) =>
      one.isStated &&
      isOpenTo(one, prepared) &&
      one.fromMinutes < fromMinutes &&
      one.toMinutes < waitedMinutes,
  )
}

type PlainWindow = Omit<TimeWindow, 'shown'>

function labelTimesOf(
  plain: readonly PlainWindow[],
  basis: Purpose,
  hasMinimum: boolean,
): LabelTimes {
  const windows = plain.map((window) => ({
    ...window,
    shown: {
      ...(hasMinimum && { min: minutes(window.fromMinutes) }),
      ...(window.toMinutes !== Infinity && { max: minutes(window.toMinutes) }),
    },
  }))
  return {
    windows,
    open: {
      none: openStretches(windows, undefined),
      scuff: openStretches(windows, 'scuff'),
      sand: openStretches(windows, 'sand'),
    },
    basis,
    hasMinimum,
    hasEnd: windows.some((window) => window.toMinutes !== Infinity),
  }
}

/** The windows that count, those that touch or overlap joined into one; in order of their starts. */
function openStretches(
  windows: readonly TimeWindow[],
  prepared: Preparation | undefined,
): readonly OpenStretch[] {
  const joined: { from: number; to: number }[] = []
  for (const window of windows) {
    if (!isOpenTo(window, prepared)) continue
    const last = joined.at(-1)
    if (last !== undefined && window.fromMinutes <= last.to) {
      last.to = Math.max(last.to, window.toMinutes)
    } else joined.push({ from: window.fromMinutes, to: window.toMinutes })
  }
  return joined
}
