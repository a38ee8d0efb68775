import type { Bench, BenchEntry } from '#core/bench/bench'
import { benchRows } from '#core/bench/bench-rows'
import type { Instant } from '#core/units'

/** Something that comes to pass on the bench: a coat is ready, its window closes, or it is cured. */
export type BenchMoment = {
  /** The same whenever the bench is read, even when the time of it has changed. */
  readonly id: string
  readonly kind: 'ready' | 'recoat-by' | 'cured'
  readonly at: Instant
  /** Of the first of the surfaces that it holds for. */
  readonly entry: BenchEntry
  readonly surfaces: readonly BenchEntry['surface'][]
  /** What it is, as a title: `Sideboard, body and top: ready for the next coat`. */
  readonly title: string
}

const words: Readonly<Record<BenchMoment['kind'], string>> = {
  ready: 'ready for the next coat',
  'recoat-by': 'last moment for the next coat, then scuff first',
  cured: 'fully cured by the label',
}

/** All that comes to pass on a bench, in order of time, as careful as the bench: the latest a coat may be ready counts. */
export function benchMoments(
  bench: Pick<Bench, 'wet' | 'ready' | 'closing' | 'past' | 'curing'>,
): readonly BenchMoment[] {
  const open = benchRows([...bench.closing, ...bench.ready, ...bench.wet])
  const rest = benchRows([...bench.past, ...bench.curing])
  return [
    ...open.rows.flatMap(({ entry, surfaces }) => [
      ...momentOf('ready', entry.readyAt?.latest, entry, surfaces),
      ...momentOf('recoat-by', entry.recoatBy, entry, surfaces),
      ...momentOf('cured', entry.curedBy, entry, surfaces),
    ]),
    ...rest.rows.flatMap(({ entry, surfaces }) =>
      momentOf('cured', entry.curedBy, entry, surfaces),
    ),
  ].sort((one, other) => one.at - other.at)
}

function momentOf(
  kind: BenchMoment['kind'],
  at: Instant | undefined,
  entry: BenchEntry,
  surfaces: readonly BenchEntry['surface'][],
): readonly BenchMoment[] {
  if (at === undefined) return []
  const names = surfaces.map((surface) => surface.name)
  const list =
    names.length < 2
      ? names.join('')
      : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`
  return [
    {
      id: `${kind}.${entry.step.id}.${entry.surface.id}`,
      kind,
      at,
      entry,
      surfaces,
      title: `${entry.piece.name}, ${list}: ${words[kind]}`,
    },
  ]
}
