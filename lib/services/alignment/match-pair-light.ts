import 'server-only'
import type { SmallPicture } from '#core/colour/colours-of-pictures'
import {
  type LightGains,
  type LightMatch,
  matchLight,
  relitValues,
} from '#core/pairs/match-light'
import { pictureOf } from '#services/alignment/colour-pixels'
import type { AlignedPictures } from '#services/alignment/aligned-picture'
import type { ColourPixels } from '#services/alignment/alignment-thread'

/** The longer side in pixels that the light is told from: finer, edges that do not quite meet would count for more. */
const lightSide = 160

/** How the light of a pair's after would be brought to that of its before. */
export async function pairLight(pair: AlignedPictures): Promise<LightMatch> {
  const [before, after] = await Promise.all([
    reduced(pair.before),
    reduced(pair.after),
  ])
  return matchLight(before, after)
}

/** A picture in another light. */
export function relit(
  { data, width, height }: ColourPixels,
  gains: LightGains,
): ColourPixels {
  const [reds, greens, blues] = gains.map(relitValues)
  const lit = new Uint8Array(data.length)
  for (let at = 0; at < data.length; at += 3) {
    lit[at] = reds?.[data[at] ?? 0] ?? 0
    lit[at + 1] = greens?.[data[at + 1] ?? 0] ?? 0
    lit[at + 2] = blues?.[data[at + 2] ?? 0] ?? 0
  }
  return { data: lit, width, height }
}

/**
 * A pair with its after in the light of its before; as it was taken where that light cannot be told, or is too far off.
 */
export async function withMatchedLight(
  pair: AlignedPictures,
): Promise<AlignedPictures> {
  const light = await pairLight(pair)
  return light.accepted
    ? { before: pair.before, after: relit(pair.after, light.gains) }
    : pair
}

async function reduced(picture: ColourPixels): Promise<SmallPicture> {
  const { width, height } = picture
  const scale = Math.min(1, lightSide / Math.max(width, height))
  const small = await pictureOf(picture)
    .resize({
      width: Math.max(1, Math.round(width * scale)),
      height: Math.max(1, Math.round(height * scale)),
      fit: 'fill',
    })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return {
    width: small.info.width,
    height: small.info.height,
    rgb: small.data,
  }
}
