/** The sizes in which photos are shown, with their longer side in pixels, largest first. */
export const renditionSizes = {
  zoom: 2880,
  screen: 1440,
  card: 800,
  thumb: 320,
} as const
export type RenditionName = keyof typeof renditionSizes

export const renditionNames: readonly RenditionName[] = [
  'zoom',
  'screen',
  'card',
  'thumb',
]
