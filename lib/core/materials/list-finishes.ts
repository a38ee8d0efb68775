import { type Base, baseOf } from '#core/finish/base-of'
import type { Journal } from '#core/journal/journal'
import type { Method } from '#core/journal/vocabulary'
import type { MaterialPlace } from '#core/materials/list-materials'
import { type MaterialPurpose, purposeOf } from '#core/materials/purpose'
import { plainText } from '#core/write-ups/plain-text'
import {
  type Coating,
  type Operation,
  surfaceWork,
} from '#core/write-ups/surface-work'

/** One product in a finish, as a buyer wants to know it. */
export type FinishLayer = {
  readonly productId: string
  readonly name: string
  readonly purpose: MaterialPurpose
  readonly coats: number
  /** Absent where the chemistry does not tell, as with an aerosol. */
  readonly base?: Base
  /** As the product's name has it. */
  readonly sheen?: string
  readonly method?: Method
  /** In a spray can, whose product comes out in no other way. */
  readonly isAerosol?: true
}

/** What is on some surfaces that were finished alike, from the wood up. */
export type SurfaceFinish = {
  readonly places: readonly MaterialPlace[]
  readonly layers: readonly FinishLayer[]
  /** What a scratch is touched up with: the colour first where there is one, then what lies over it. */
  readonly touchUp: readonly FinishLayer[]
}

/** The finish of every surface, surfaces that were finished alike together, in the order of the pieces. */
export function listFinishes(journal: Journal): readonly SurfaceFinish[] {
  const groups = new Map<string, SurfaceFinish>()
  for (const { piece, surface, operations } of surfaceWork(journal)) {
    const layers = finishLayers(operations)
    if (layers.length === 0) continue
    const key = JSON.stringify(layers)
    const place = { piece: { id: piece.id, name: piece.name }, surface }
    groups.set(key, {
      places: [...(groups.get(key)?.places ?? []), place],
      layers,
      touchUp: touchUpOf(layers),
    })
  }
  return [...groups.values()]
}

/** The products laid on a surface, from the wood up. */
export function finishLayers(
  operations: readonly Operation[],
): readonly FinishLayer[] {
  return operations.flatMap((one) =>
    one.type === 'coating' ? layerOf(one) : [],
  )
}

function layerOf({
  kind,
  product,
  coats,
  method,
}: Coating): readonly FinishLayer[] {
  if (product === undefined) return []
  const base = baseOf(product)
  const sheen = sheenOf(product.name)
  return [
    {
      productId: product.id,
      name: plainText(product.name),
      purpose: purposeOf(kind, product.category),
      coats,
      ...(base !== undefined && { base }),
      ...(sheen !== undefined && { sheen }),
      ...(method !== undefined && { method }),
      ...(product.chemistry === 'aerosol' && { isAerosol: true as const }),
    },
  ]
}

const sheens =
  /\b(dead flat|flat|matte?|eggshell|satin|semi-?gloss|high gloss|gloss|metallic)\b/i

/** The sheen that the name of a product tells, in small letters. */
function sheenOf(name: string): string | undefined {
  return sheens.exec(name)?.[1]?.toLowerCase()
}

const hidden: ReadonlySet<MaterialPurpose> = new Set([
  'primer',
  'conditioner',
  'sealer',
])

/** What a scratch in these layers is touched up with: the colour first where there is one, then what lies over it. */
export function touchUpOf(
  layers: readonly FinishLayer[],
): readonly FinishLayer[] {
  const seen = layers.filter(
    ({ productId, purpose }, index) =>
      !hidden.has(purpose) && layers[index + 1]?.productId !== productId,
  )
  const colour = seen.findLastIndex(
    ({ purpose }) => purpose === 'paint' || purpose === 'hardware finish',
  )
  return colour === -1 ? seen : seen.slice(colour)
}
