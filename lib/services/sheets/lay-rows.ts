import 'server-only'
import type { Rectangle, Size } from '#core/sheets/largest-crop'
import {
  type TypeStyle,
  type Typesetter,
  shortened,
} from '#services/sheets/typesetter'

/** Words in one style. */
export type Words = {
  readonly words: string
  readonly style: TypeStyle
  /** What it is, for who has the sheet read aloud. */
  readonly role: 'title' | 'text'
}

/** What stands at one end of a row: words, or a picture that is as large as it may be. */
export type RowEnd = Words | { readonly picture: Size }

/** One row below another. */
export type Row = {
  /** Blank above it, in pixels. */
  readonly above: number
  /** Whether a rule runs above it, in the middle of the blank. */
  readonly rule?: boolean
} & (
  | {
      readonly kind: 'ends'
      readonly left?: RowEnd
      readonly right?: RowEnd
    }
  /** The names of all facts stand in one column, what they say in the other. */
  | {
      readonly kind: 'fact'
      readonly name: Words
      readonly says: Words
      readonly column: number
    }
)

/** Words in their place: the place is as large as they are. */
export type SetWords = Words & {
  readonly place: Rectangle
  /** The width at which they were broken into lines, in pixels; absent: one line. */
  readonly width?: number
}

/** Rows in their places. */
export type LaidRows = {
  readonly height: number
  readonly words: readonly SetWords[]
  readonly rules: readonly Rectangle[]
  readonly picture?: Rectangle
}

/** Between the two ends of a row, in shares of the width. */
const apart = 0.04
/** What stands on the right may take so much of the width. */
const rightShare = 0.42

/**
 * Rows set as large as they fit in a box: at the first of the scales at which they do, else at the last with fewer words.
 *
 * @param rowsAt the rows at a scale, 1 being the size that was designed
 * @param scales from the largest to the smallest
 */
export async function fitRows(
  rowsAt: (scale: number) => readonly Row[],
  scales: readonly number[],
  box: Rectangle,
  typesetter: Typesetter,
  ruleHeight: number,
): Promise<LaidRows> {
  for (const scale of scales) {
    const laid = await layRows(rowsAt(scale), box, typesetter, ruleHeight)
    if (fits(laid, box)) return laid
  }
  let rows = rowsAt(scales.at(-1) ?? 1)
  for (let round = 0; round < 60; round += 1) {
    const laid = await layRows(rows, box, typesetter, ruleHeight)
    if (fits(laid, box)) return laid
    rows = withFewerWords(rows)
  }
  return { height: 0, words: [], rules: [] }
}

function fits({ height, words }: LaidRows, box: Rectangle): boolean {
  return (
    height <= box.height &&
    words.every(
      ({ place }) =>
        place.left >= box.left - 1 &&
        place.left + place.width <= box.left + box.width + 1,
    )
  )
}

async function layRows(
  rows: readonly Row[],
  box: Rectangle,
  typesetter: Typesetter,
  ruleHeight: number,
): Promise<LaidRows> {
  const words: SetWords[] = []
  const rules: Rectangle[] = []
  let picture: Rectangle | undefined
  let top = box.top
  for (const row of rows) {
    if (row.rule === true) {
      rules.push({
        left: box.left,
        top: Math.round(top + row.above / 2),
        width: box.width,
        height: ruleHeight,
      })
    }
    top += row.above
    const parts = await partsOf(row, box.width, typesetter)
    const height = Math.max(0, ...parts.map((part) => part.size.height))
    for (const part of parts) {
      const place = {
        left: Math.round(
          part.side === 'right'
            ? box.left + box.width - part.size.width
            : box.left + part.at,
        ),
        // Lines end on one line, however high their letters are.
        top: Math.round(top + height - part.size.height),
        width: part.size.width,
        height: part.size.height,
      }
      if ('picture' in part.end) picture = place
      else {
        words.push({
          ...part.end,
          place,
          ...(part.width !== undefined && { width: part.width }),
        })
      }
    }
    top += height
  }
  return {
    height: Math.ceil(top - box.top),
    words,
    rules,
    ...(picture !== undefined && { picture }),
  }
}

type Part = {
  readonly end: RowEnd
  readonly size: Size
  readonly side: 'left' | 'right'
  readonly at: number
  readonly width?: number
}

async function partsOf(
  row: Row,
  width: number,
  typesetter: Typesetter,
): Promise<readonly Part[]> {
  if (row.kind === 'fact') {
    const says = width - row.column
    return [
      {
        end: row.name,
        size: await firstLine(row.name, row.says, says, typesetter),
        side: 'left',
        at: 0,
      },
      {
        end: row.says,
        size: await sizeOf(row.says, says, typesetter),
        side: 'left',
        at: row.column,
        width: says,
      },
    ]
  }
  const { left, right } = row
  const rightWidth = left === undefined ? width : width * rightShare
  const rightSize =
    right === undefined
      ? undefined
      : await sizeOf(right, rightWidth, typesetter)
  const leftWidth =
    rightSize === undefined ? width : width * (1 - apart) - rightSize.width
  return [
    ...(left === undefined
      ? []
      : [
          {
            end: left,
            size: await sizeOf(left, leftWidth, typesetter),
            side: 'left' as const,
            at: 0,
            width: leftWidth,
          },
        ]),
    ...(right === undefined || rightSize === undefined
      ? []
      : [
          {
            end: right,
            size: rightSize,
            side: 'right' as const,
            at: 0,
            width: rightWidth,
          },
        ]),
  ]
}

/** The name of a fact stands level with the first line of what it says. */
async function firstLine(
  name: Words,
  says: Words,
  width: number,
  typesetter: Typesetter,
): Promise<Size> {
  const own = await lineSize(name, typesetter)
  const all = await sizeOf(says, width, typesetter)
  const line = await lineSize({ ...says, words: 'Hg' }, typesetter)
  return {
    width: own.width,
    height: own.height + Math.max(0, all.height - line.height),
  }
}

async function sizeOf(
  end: RowEnd,
  width: number,
  typesetter: Typesetter,
): Promise<Size> {
  if ('picture' in end) return end.picture
  const size = await typesetter.measure(end.words, end.style, width)
  if (size.height <= end.style.size * severalLines) {
    return withDepth(end, size, typesetter)
  }
  // The last of several lines, too, goes down to where letters such as g end: one in place of its last letter tells.
  const deep = await typesetter.measure(
    `${shortenedByOne(end.words)}g`,
    end.style,
    width,
  )
  const isSameLines = deep.height - size.height < end.style.size / 2
  return isSameLines
    ? { width: size.width, height: Math.max(size.height, deep.height) }
    : size
}

function shortenedByOne(words: string): string {
  return Array.from(words).slice(0, -1).join('')
}

/** Letters of one line reach at most so far, in bodies of letters. */
const severalLines = 1.7

/** One line, down to where letters such as g end even if it has none: lines of one size then end level. */
export async function lineSize(
  words: Words,
  typesetter: Typesetter,
): Promise<Size> {
  const size = await typesetter.measure(words.words, words.style)
  return withDepth(words, size, typesetter)
}

async function withDepth(
  { words, style }: Words,
  size: Size,
  typesetter: Typesetter,
): Promise<Size> {
  const deep = await typesetter.measure(`${words}g`, style)
  return { width: size.width, height: Math.max(size.height, deep.height) }
}

/** The rows with the longest of their words made shorter. */
function withFewerWords(rows: readonly Row[]): readonly Row[] {
  const all = rows.flatMap(wordsOf)
  const longest = all.toSorted(
    (one, other) => other.words.length - one.words.length,
  )[0]
  const shorter = <E extends RowEnd>(end: E): E =>
    end === longest ? { ...end, words: shortened(longest.words) } : end
  return rows.map((row) =>
    row.kind === 'fact'
      ? { ...row, says: shorter(row.says) }
      : {
          ...row,
          ...(row.left !== undefined && { left: shorter(row.left) }),
          ...(row.right !== undefined && { right: shorter(row.right) }),
        },
  )
}

function wordsOf(row: Row): readonly Words[] {
  const ends = row.kind === 'fact' ? [row.says] : [row.left, row.right]
  return ends.flatMap((end) =>
    end === undefined || 'picture' in end ? [] : [end],
  )
}
