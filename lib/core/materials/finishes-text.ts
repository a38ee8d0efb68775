import type { WorkshopSettings } from '#core/journal/journal'
import type { SurfaceFinish } from '#core/materials/list-finishes'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'

/** What a buyer is told of a finish, without a word of what it cost: one finish a paragraph; ends with a line break. */
export function finishesText(
  title: string,
  finishes: readonly SurfaceFinish[],
  { name }: Pick<WorkshopSettings, 'name'>,
  language: Language = english,
): string {
  const words = language.materials
  const paragraphs = [
    words.finishesTitle(title),
    ...(finishes.length === 0 ? [words.noFinish] : []),
    ...finishes.map((finish) =>
      [
        words.finishPlaces(finish),
        ...finish.layers.map((layer) => `   ${words.layer(layer)}`),
        `   ${words.touchUp(finish)}`,
      ].join('\n'),
    ),
    ...(finishes.length === 0 ? [] : [words.touchUpCare(name)]),
  ]
  return `${paragraphs.join('\n\n')}\n`
}
