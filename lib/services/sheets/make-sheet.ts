import 'server-only'
import type { Sharp } from 'sharp'
import { type Result, ok } from '#core/result'
import type { PaperShape, SheetShape } from '#core/sheets/plan-sheet'
import { type SheetLook, plainLook } from '#core/sheets/sheet-design'
import { sheetFileName } from '#core/sheets/sheet-file-name'
import { sheetWords } from '#core/sheets/sheet-words'
import { inTurn } from '#services/renditions/renditions'
import { withCredit } from '#services/renditions/with-credit'
import { drawSheet } from '#services/sheets/draw-sheet'
import { laySheet } from '#services/sheets/lay-sheet'
import { type OwnMark, readMark } from '#services/sheets/own-mark'
import {
  type ChosenPhotos,
  type SheetContent,
  readSheetContent,
} from '#services/sheets/sheet-content'
import { readCredit } from '#services/sheets/sheet-settings'
import {
  type SheetPicture,
  pictureCutter,
} from '#services/sheets/sheet-picture'
import { pictureTypesetter } from '#services/sheets/text-picture'
import { readWorkshop } from '#services/workshop/workshop'

/** The formats that sheets are made in, with their media types. */
export const sheetFormats = {
  jpg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
} as const
export type SheetFormat = keyof typeof sheetFormats

export type Sheet = {
  readonly bytes: Buffer
  readonly mediaType: string
  readonly fileName: string
}

/** What is to be shown, and how it is to look. */
export type SheetChoice = ChosenPhotos & Partial<SheetLook>

/** The shapes there are, for whoever asks for one: undefined when there is no such shape. */
export function sheetShape(name: string): SheetShape | undefined {
  const shapes: readonly SheetShape[] = ['1x1', '4x5', '9x16', '16x9']
  return shapes.find((shape) => shape === name)
}

/** The kinds of paper there are: undefined when there is no such kind. */
export function paperShape(name: string): PaperShape | undefined {
  const papers: readonly PaperShape[] = ['letter', 'a4']
  return papers.find((paper) => paper === name)
}

/** The format of a file's ending: undefined when sheets are not made in it. */
export function sheetFormat(ending: string): SheetFormat | undefined {
  const formats: readonly SheetFormat[] = ['jpg', 'png', 'webp']
  return formats.find((format) => format === ending)
}

/**
 * Makes the before/after sheet of a job. Its file says nothing but whom the workshop credits: no place, no camera, no time.
 *
 * @param width in pixels, of a smaller one to be looked at first; that of its shape when absent
 * @returns refused when there is no such job, a chosen photo is not in it, or it has no pair of photos yet
 */
export async function makeSheet(
  jobId: string,
  shape: SheetShape,
  format: SheetFormat,
  choice: SheetChoice = {},
  width?: number,
): Promise<Result<Sheet>> {
  const read = await readSheet(jobId, choice)
  if (!read.ok) return read
  const { content, look, words, mark, credit } = read.value
  const bytes = await inTurn(async () => {
    const pictures = await content.open(look.light, width !== undefined)
    const typesetter = pictureTypesetter()
    const laid = await layRead(shape, read.value, pictures, typesetter)
    const drawn = await drawSheet(laid.sheet, {
      cutter: laid.cutter,
      typesetter,
      ...(mark?.picture !== undefined && { mark: mark.picture.bytes }),
    })
    const sized = width === undefined ? drawn : drawn.resize({ width })
    return encoded(withCredit(sized, credit), format)
  })
  return ok({
    bytes,
    mediaType: sheetFormats[format],
    fileName: sheetFileName({
      title: words.title ?? content.journal.job.title,
      shape,
      width,
      design: look.design,
      format,
    }),
  })
}

/** A sheet of which all is known but its shape. */
export type ReadSheet = {
  readonly content: SheetContent
  readonly look: SheetLook
  readonly words: ReturnType<typeof sheetWords>
  readonly mark: OwnMark | undefined
  /** The workshop's name. */
  readonly maker: string
  /** Whom its file names as its author; empty: nobody. */
  readonly credit: string
}

/** What a sheet is made from; refused as `makeSheet` is. */
export async function readSheet(
  jobId: string,
  { design, ground, elements, light, ...chosen }: SheetChoice,
): Promise<Result<ReadSheet>> {
  const content = await readSheetContent(jobId, chosen)
  if (!content.ok) return content
  const look = {
    design: design ?? plainLook.design,
    ground: ground ?? plainLook.ground,
    elements: elements ?? plainLook.elements,
    light: light ?? plainLook.light,
  }
  const workshop = await readWorkshop()
  const mark = look.elements.includes('mark') ? await readMark() : undefined
  return ok({
    content: content.value,
    look,
    words: sheetWords({
      journal: content.value.journal,
      workshop,
      elements: look.elements,
      ...(mark?.words !== undefined && { mark: mark.words }),
    }),
    mark,
    maker: workshop.name,
    credit: await readCredit(),
  })
}

/** Lays a sheet out: what stands where on it, and what cuts its pictures. */
export async function layRead(
  shape: SheetShape | PaperShape,
  { content, look, words, mark }: ReadSheet,
  pictures: readonly SheetPicture[],
  typesetter: Parameters<typeof laySheet>[0]['typesetter'],
) {
  const cutter = pictureCutter(pictures, '#ffffff')
  const sheet = await laySheet({
    shape,
    look,
    pictures: content.layout(pictures),
    captions: pictures.map(({ caption }) => caption),
    words,
    ...(mark?.picture !== undefined && { mark: mark.picture }),
    typesetter,
    grey: cutter.grey,
  })
  return { sheet, cutter }
}

async function encoded(sheet: Sharp, format: SheetFormat): Promise<Buffer> {
  switch (format) {
    case 'jpg':
      return sheet.jpeg({ quality: 88, chromaSubsampling: '4:4:4' }).toBuffer()
    case 'png':
      return sheet.png().toBuffer()
    case 'webp':
      return sheet.webp({ quality: 86, effort: 2 }).toBuffer()
  }
}
