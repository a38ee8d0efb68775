/**
 * The designs that a sheet can have: quiet (a serif title below pictures with air around them), bold (pictures to the
 * edge, heavy letters below or beside) and workshop card (framed, headed by the workshop, facts in rows).
 */
export const sheetDesigns = ['quiet', 'bold', 'workshop-card'] as const
export type SheetDesign = (typeof sheetDesigns)[number]

export const sheetGrounds = ['light', 'dark'] as const
export type SheetGround = (typeof sheetGrounds)[number]

/** The light of its afters: as taken, for a listing, or brought gently to that of their befores (`match-light.ts`). */
export const sheetLights = ['as-taken', 'matched'] as const
export type SheetLight = (typeof sheetLights)[number]

/** What may stand on a sheet besides its pictures. */
export const sheetElements = [
  'title',
  'finish',
  'dimensions',
  'price',
  'workshop',
  'mark',
] as const
export type SheetElement = (typeof sheetElements)[number]

/** How a sheet is to look, and what stands on it. */
export type SheetLook = {
  readonly design: SheetDesign
  readonly ground: SheetGround
  readonly elements: readonly SheetElement[]
  readonly light: SheetLight
}

/** A sheet of which nothing was said: the title alone, as a listing wants it. */
export const plainLook: SheetLook = {
  design: 'quiet',
  ground: 'light',
  elements: ['title'],
  light: 'as-taken',
}

/** The colours of a sheet, in sRGB, such as `#2a2621`. */
export type SheetColours = {
  readonly ground: string
  readonly ink: string
  readonly softInk: string
  /** Of rules and frames. */
  readonly line: string
}

/**
 * The colours of a design on a ground. Words stand at least 7 to 1 against it.
 *
 * @param printed paper is white already: a tinted light ground would only cost ink
 * Source: WCAG 2.2, success criterion 1.4.6, for the contrast.
 */
export function sheetColours(
  { design, ground }: Pick<SheetLook, 'design' | 'ground'>,
  printed: boolean,
): SheetColours {
  const colours = palettes[design][ground]
  return printed && ground === 'light'
    ? { ...colours, ground: '#ffffff' }
    : colours
}

const palettes: Readonly<
  Record<SheetDesign, Readonly<Record<SheetGround, SheetColours>>>
> = {
  quiet: {
    light: {
      ground: '#f7f4ef',
      ink: '#2a2621',
      softInk: '#514b44',
      line: '#d6cfc4',
    },
    dark: {
      ground: '#201d1a',
      ink: '#f4efe7',
      softInk: '#c9c1b5',
      line: '#4a443d',
    },
  },
  bold: {
    light: {
      ground: '#f2e6c9',
      ink: '#17140f',
      softInk: '#3a3428',
      line: '#17140f',
    },
    dark: {
      ground: '#12211f',
      ink: '#f6efdc',
      softInk: '#cfd6cc',
      line: '#f6efdc',
    },
  },
  'workshop-card': {
    light: {
      ground: '#fbfaf7',
      ink: '#23211e',
      softInk: '#4f4a44',
      line: '#8a8177',
    },
    dark: {
      ground: '#22262a',
      ink: '#f1efea',
      softInk: '#c5c4bf',
      line: '#7f8489',
    },
  },
}
