import 'server-only'
import type { Size } from '#core/sheets/largest-crop'
import type { SheetColours, SheetDesign } from '#core/sheets/sheet-design'
import type { SheetWords } from '#core/sheets/sheet-words'
import type { Row, RowEnd, Words } from '#services/sheets/lay-rows'
import type { Face } from '#services/sheets/typesetter'

/** What the words of a sheet are set from. */
export type RowsBrief = {
  readonly design: SheetDesign
  readonly colours: SheetColours
  readonly words: SheetWords
  /** The owner's own mark as a picture, by its size. */
  readonly mark?: Size
  /** Pixels of the sheet to a pixel of the design. */
  readonly pixels: number
  /** Names of the facts that a card has in rows. */
  readonly names: {
    readonly finish: string
    readonly dimensions: string
    readonly price: string
  }
}

/** The largest box that an own mark is fitted into, in pixels of a picture. */
const markBox = { width: 260, height: 72 }
/** Facts are small already; where room is scarce the title gives way. */
const leastScale = 0.84

/** The rows below the pictures at a scale; none where nothing stands there. */
export function footRows(brief: RowsBrief, scale: number): readonly Row[] {
  switch (brief.design) {
    case 'quiet':
      return quietRows(brief, scale)
    case 'bold':
      return boldRows(brief, scale)
    case 'workshop-card':
      return cardRows(brief, scale)
  }
}

/** The rows above the pictures: on a card the workshop and its mark; else none. */
export function headRows(brief: RowsBrief, scale: number): readonly Row[] {
  if (brief.design !== 'workshop-card') return []
  const style = styler(brief, scale)
  const { workshop } = brief.words
  const mark = markOf(brief, style, scale)
  const name =
    workshop === undefined ? undefined : style(workshop, 'serif', 34, 'ink')
  return rowOf(name, mark, 0)
}

function quietRows(brief: RowsBrief, scale: number): readonly Row[] {
  const { title, finish, dimensions, price, workshop } = brief.words
  const calm = Math.max(scale, leastScale)
  const loud = styler(brief, scale)
  const style = styler(brief, calm)
  const gap = pixelsOf(brief, calm)
  const facts = [finish, dimensions].filter((words) => words !== undefined)
  const mark = markOf(brief, style, calm)
  const right =
    mark ??
    (workshop === undefined
      ? undefined
      : style(workshop, 'sans', 24, 'softInk'))
  const signed =
    mark !== undefined && workshop !== undefined
      ? style(workshop, 'sans', 24, 'softInk')
      : undefined
  const cost = price === undefined ? undefined : style(price, 'sans', 32, 'ink')
  return stacked([
    ...(title === undefined
      ? []
      : rowOf(loud(title, 'serif', 50, 'ink', 'title'), undefined, 0)),
    ...facts.flatMap((words, index) =>
      rowOf(
        style(words, 'sans', 26, 'softInk'),
        undefined,
        gap(index === 0 ? 22 : 16),
      ),
    ),
    ...rowOf(cost ?? signed, right === signed ? undefined : right, gap(20)),
    ...(cost !== undefined && signed !== undefined
      ? rowOf(undefined, signed, gap(8))
      : []),
  ])
}

function boldRows(brief: RowsBrief, scale: number): readonly Row[] {
  const { title, finish, dimensions, price, workshop } = brief.words
  // The title grows with the room; the rest would shout.
  const calm = Math.max(leastScale, Math.min(scale, 1.25))
  const loud = styler(brief, scale)
  const style = styler(brief, calm)
  const gap = pixelsOf(brief, calm)
  const facts = [finish, dimensions].filter((words) => words !== undefined)
  const mark = markOf(brief, style, calm)
  const cost =
    price === undefined ? undefined : style(price, 'heavy', 40, 'ink')
  const name =
    workshop === undefined ? undefined : style(workshop, 'sans', 26, 'softInk')
  const last = cost ?? (mark === undefined ? undefined : name)
  return stacked([
    ...(title === undefined
      ? []
      : rowOf(loud(title, 'heavy', 62, 'ink', 'title'), undefined, 0)),
    ...facts.flatMap((words, index) =>
      rowOf(
        style(words, 'sans', 28, 'softInk'),
        undefined,
        gap(index === 0 ? 26 : 16),
      ),
    ),
    ...rowOf(last, mark ?? name, gap(26)),
    ...(cost !== undefined && mark !== undefined
      ? rowOf(undefined, name, gap(8))
      : []),
  ])
}

function cardRows(brief: RowsBrief, scale: number): readonly Row[] {
  const { title, finish, dimensions, price } = brief.words
  const calm = Math.max(scale, leastScale)
  const loud = styler(brief, scale)
  const style = styler(brief, calm)
  const gap = pixelsOf(brief, calm)
  const facts = [
    [brief.names.finish, finish],
    [brief.names.dimensions, dimensions],
    [brief.names.price, price],
  ] as const
  return stacked([
    ...(title === undefined
      ? []
      : rowOf(loud(title, 'serif', 42, 'ink', 'title'), undefined, 0)),
    ...facts.flatMap(([name, says]) =>
      says === undefined
        ? []
        : [
            {
              kind: 'fact' as const,
              above: gap(25),
              rule: true,
              name: style(name, 'sans', 24, 'softInk'),
              says: style(says, 'sans', 26, 'ink'),
              column: gap(132),
            },
          ],
    ),
  ])
}

type Styler = (
  words: string,
  face: Face,
  size: number,
  colour: 'ink' | 'softInk',
  role?: Words['role'],
) => Words

function styler({ colours, pixels }: RowsBrief, scale: number): Styler {
  return (words, face, size, colour, role = 'text') => ({
    words,
    style: {
      face,
      size: Math.round(size * scale * pixels),
      colour: colours[colour],
    },
    role,
  })
}

function pixelsOf({ pixels }: RowsBrief, scale: number) {
  return (length: number) => Math.round(length * scale * pixels)
}

/** The own mark: as a picture, else in words. */
function markOf(
  { mark, words, pixels }: RowsBrief,
  style: Styler,
  scale: number,
): RowEnd | undefined {
  if (mark !== undefined) {
    const factor =
      Math.min(markBox.width / mark.width, markBox.height / mark.height) *
      pixels *
      scale
    return {
      picture: {
        width: Math.max(1, Math.round(mark.width * factor)),
        height: Math.max(1, Math.round(mark.height * factor)),
      },
    }
  }
  return words.mark === undefined
    ? undefined
    : style(words.mark, 'serif', 30, 'ink')
}

function rowOf(
  left: RowEnd | undefined,
  right: RowEnd | undefined,
  above: number,
): readonly Row[] {
  if (left === undefined && right === undefined) return []
  return [
    {
      kind: 'ends',
      above,
      ...(left !== undefined && { left }),
      ...(right !== undefined && { right }),
    },
  ]
}

/** Nothing stands above the first row. */
function stacked(rows: readonly Row[]): readonly Row[] {
  return rows.map((row, index) =>
    index === 0 ? { ...row, above: 0, rule: false } : row,
  )
}
