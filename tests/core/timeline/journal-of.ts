import type { AirReading } from '#core/air/reading'
import type { Camera, Journal, Photo, Step } from '#core/journal/journal'
import type { Product } from '#core/shelf/product'
import { type Span, exactly } from '#core/time/span'
import { instant } from '#core/units'

/** An instant from ISO 8601 with its offset. */
export const utc = (text: string) => instant(Date.parse(text))

type PhotoOf = {
  readonly id: string
  readonly taken: Span
  readonly camera?: string
  readonly basis?: Photo['basis']
}
type StepOf = Partial<
  Pick<
    Step,
    | 'productId'
    | 'startedAt'
    | 'finishedAt'
    | 'thinningPercent'
    | 'photoIds'
    | 'grit'
    | 'method'
    | 'note'
    | 'amount'
  >
> & {
  readonly id: string
  readonly kind: Step['kind']
  /** Surfaces, each with its coat. */
  readonly on?: Readonly<Record<string, number | null>>
}

/** A photo taken exactly at an instant, by a camera that records its offset. */
export const photo = (
  id: string,
  at: string,
  camera: string | undefined = 'phone',
): PhotoOf => ({
  id,
  taken: exactly(utc(at)),
  ...(camera !== '' && { camera }),
})

/** A journal of one job with the least that the timeline reads; surfaces are named by their ids. */
export function journalOf(parts: {
  readonly surfaces?: Readonly<Record<string, readonly string[]>>
  readonly photos?: readonly PhotoOf[]
  readonly steps: readonly StepOf[]
  readonly products?: readonly Product[]
  readonly cameras?: readonly Camera[]
  readonly air?: readonly AirReading[]
  readonly finishedAt?: string
}): Journal {
  const created = utc('2026-10-22T08:00:00Z')
  return {
    job: {
      id: 'job',
      title: 'Alder Yard',
      createdAt: created,
      ...(parts.finishedAt !== undefined && {
        finishedAt: utc(parts.finishedAt),
      }),
    },
    pieces: Object.entries(parts.surfaces ?? { sideboard: ['body'] }).map(
      ([piece, surfaces]) => ({
        id: piece,
        name: piece,
        kind: piece,
        surfaces: surfaces.map((surface) => ({ id: surface, name: surface })),
      }),
    ),
    photos: (parts.photos ?? [])
      .map(({ id, taken, camera, basis }) => ({
        id,
        sha256: '0'.repeat(64),
        fileName: `${id}.jpg`,
        width: 4000,
        height: 3000,
        role: 'progress' as const,
        surfaceIds: [],
        ...(camera !== undefined && { cameraId: camera }),
        taken,
        basis: basis ?? ('offset' as const),
        warnings: [],
      }))
      .sort((one, other) => one.taken.at - other.taken.at),
    steps: parts.steps.map(({ id, kind, on, ...rest }, i) => ({
      id,
      kind,
      surfaces: Object.entries(on ?? { body: null }).map(
        ([surfaceId, coat]) => ({
          surfaceId,
          ...(coat !== null && { coat }),
        }),
      ),
      photoIds: [],
      createdAt: instant(created + i),
      ...rest,
    })),
    products: parts.products ?? [],
    cameras: parts.cameras ?? [{ id: 'phone', name: 'Phone A' }],
    air: parts.air ?? [],
  }
}

/** A product by its kind. */
export const product = (
  id: string,
  chemistry: Product['chemistry'],
  label: Product['label'],
): Product => ({ id, name: id, category: 'other', chemistry, label })
