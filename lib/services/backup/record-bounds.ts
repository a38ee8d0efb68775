import { z } from 'zod'
import { stepKinds } from '#core/journal/vocabulary'
import { span } from '#core/time/span'
import { earliestMoment } from '#core/time/when-it-was'
import { instant } from '#core/units'
import { newAirReading } from '#services/air/schema'
import type { Row, Value } from '#services/backup/table-shape'
import { newBinRules } from '#services/bin/schema'
import { knownClock } from '#services/cameras/schema'
import { chapterList, settledList } from '#services/captions/schema'
import {
  type KeptState,
  type KeptWorkshop,
  keptState,
  keptWorkshop,
} from '#services/changes/schema'
import { jobFacts, keptMillimetres, surfaceName } from '#services/jobs/schema'
import { surfaceAreasTyped } from '#services/materials/schema'
import {
  newCost,
  newWork,
  ratesFacts,
  saleFacts,
  stepHours,
} from '#services/money/schema'
import { handPoints } from '#services/pairs/schema'
import { photoPlacing } from '#services/photos/schema'
import { placingRecord } from '#services/placing/schema'
import {
  pieceChoice,
  portfolioSettings,
  publishedContent,
} from '#services/portfolio/schema'
import { newRuleAnswer } from '#services/rules/schema'
import { creditAtMost } from '#services/sheets/sheet-settings'
import { markWordsAtMost } from '#services/sheets/own-mark'
import { label, newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { workshopSettings } from '#services/workshop/schema'
import {
  madeOn,
  newSentenceEdit,
  newWriteUpSettings,
} from '#services/write-ups/schema'

const pieceFacts = jobFacts.shape.pieces.element.shape
const pack = newProduct.shape.pack.unwrap().shape
const weighed = newStep.shape.weighed.unwrap()
const { limits, links, tags } = newWriteUpSettings.shape

/** 2200-01-01T00:00:00Z: no clock that is merely wrong says later; common practice, no source. */
const latestMoment = 7_258_118_400_000
/** The most that a typed time may be off by, in milliseconds. */
const yearOfDoubt = 366 * 86_400_000
/** A database's `Int`. Source: Prisma schema reference, Int on SQLite through a driver adapter: 32 bits. */
const mostOfAnInt = 2_147_483_647

/** A moment at which something was done here, or was written down by this program's clock. */
const workMoment = z
  .number()
  .min(earliestMoment, 'That is before 1900.')
  .max(latestMoment, 'That is after the year 2199.')
/** A moment at which a photo can have been taken, with how far its time may be off. */
const photoMoment = z
  .number()
  .min(earliestMoment - yearOfDoubt, 'That is before 1899.')
  .max(latestMoment, 'That is after the year 2199.')
/** A moment that came with a file or with a reading, and that nothing is believed of because of it. */
const toldMoment = z.number()
const moments: ReadonlySet<z.ZodType> = new Set([
  workMoment,
  photoMoment,
  toldMoment,
])

const atLeast = (least: number) =>
  z
    .int('It is a whole number.')
    .min(least, `It is ${least} or more.`)
    .max(mostOfAnInt, 'That is more than can be kept.')

/** Text that holds JSON of a form. */
const json = (inside: z.ZodType) =>
  z
    .string()
    .transform((text, context): unknown => {
      try {
        return JSON.parse(text)
      } catch {
        context.addIssue('It is no JSON.')
        return z.NEVER
      }
    })
    .pipe(inside)

/**
 * What a column of a backup may hold, by table and column: what the form or the interface refuses there, a backup cannot
 * bring either, and of what the program writes by itself it brings nothing that the program could not read. Choices from a
 * list are here only where it cannot do without: others that a later version no longer offers are read as nothing, or as
 * other. A bound may be raised and not lowered, as backups of before it would be refused. Null is judged by the database.
 */
export const columnBounds: Readonly<Record<string, z.ZodType>> = {
  'Workshop.name': workshopSettings.shape.name,
  'Workshop.zone': workshopSettings.shape.zone,
  'Workshop.currency': workshopSettings.shape.currency,
  'Workshop.createdAt': workMoment,
  'Job.title': jobFacts.shape.title,
  'Job.createdAt': workMoment,
  'Job.finishedAt': workMoment,
  'Job.soldAt': workMoment,
  'Job.deliveredAt': workMoment,
  'Job.revision': atLeast(0),
  'Job.askingPriceMinor': jobFacts.shape.askingPriceMinor,
  'Job.collection': jobFacts.shape.collection,
  'Job.client': jobFacts.shape.client,
  'Job.brief': jobFacts.shape.brief,
  'Job.removedAt': workMoment,
  'Piece.position': atLeast(0),
  'Piece.name': pieceFacts.name,
  'Piece.kind': pieceFacts.kind,
  'Piece.widthMillimetres': keptMillimetres,
  'Piece.depthMillimetres': keptMillimetres,
  'Piece.heightMillimetres': keptMillimetres,
  'Piece.material': pieceFacts.material,
  'Piece.flaws': pieceFacts.flaws,
  'Piece.style': pieceFacts.style,
  'Piece.age': pieceFacts.age,
  'Piece.ageKnownBy': pieceFacts.ageKnownBy,
  'Piece.hardware': pieceFacts.hardware,
  'Piece.removedAt': workMoment,
  'Surface.position': atLeast(0),
  'Surface.name': surfaceName,
  'Surface.areaSquareMetres': surfaceAreasTyped.element.shape.squareMetres,
  'Surface.removedAt': workMoment,
  'Camera.clockCorrectionSeconds': knownClock.shape.correctionSeconds,
  'Camera.clockUncertaintySeconds': knownClock.shape.uncertaintySeconds,
  'Camera.createdAt': workMoment,
  'Original.byteLength': atLeast(0),
  'Original.width': atLeast(1),
  'Original.height': atLeast(1),
  'Original.keptAt': workMoment,
  'Original.likeness': z
    .string()
    .regex(/^[0-9a-f]{16}$/, 'It is 16 hexadecimal digits.'),
  'Original.sharpness': z.number().min(0, 'It is 0 or more.'),
  'Original.crc32': z
    .int()
    .min(0, 'It is 0 or more.')
    .max(0xff_ff_ff_ff, 'It has 32 bits.'),
  'Photo.arrivedAt': workMoment,
  'Photo.fileModifiedAt': toldMoment,
  'Photo.view': photoPlacing.shape.view,
  'Photo.flaw': photoPlacing.shape.flaw,
  'Photo.exifLocal': z
    .string()
    .regex(
      /^\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?$/,
      'It is a local time in ISO 8601.',
    ),
  'Photo.satelliteAt': toldMoment,
  'Photo.quarterTurns': z.int().min(0, 'It is 0 to 3.').max(3, 'It is 0 to 3.'),
  'Photo.takenAt': photoMoment,
  'Photo.takenEarliest': photoMoment,
  'Photo.takenLatest': photoMoment,
  'Photo.warnings': json(z.array(z.string(), 'It is a list of sentences.')),
  'Photo.removedAt': workMoment,
  'Pair.view': photoPlacing.shape.view,
  'Pair.homography': json(z.array(z.number()).length(9, 'It is nine numbers.')),
  'Pair.confidence': z.number().min(0, 'It is 0 to 1.').max(1, 'It is 0 to 1.'),
  'Pair.handPoints': json(handPoints),
  'Pair.turns': z
    .string()
    .regex(/^[0-3],[0-3]$/, 'It is two numbers of quarter turns.'),
  'Pair.createdAt': workMoment,
  'Pair.confirmedAt': workMoment,
  'Pair.separatedAt': workMoment,
  'Product.name': newProduct.shape.name,
  'Product.label': json(label),
  'Product.packAmount': pack.amount,
  'Product.packPriceMinor': pack.price,
  'Product.packsBought': newProduct.shape.packsBought,
  'Product.link': newProduct.shape.link,
  'Product.createdAt': workMoment,
  'Step.kind': z.enum(stepKinds, `It is one of: ${stepKinds.join(', ')}.`),
  'Step.thinningPercent': newStep.shape.thinningPercent,
  'Step.grit': newStep.shape.grit,
  'Step.amount': newStep.shape.amount,
  'Step.weighedBeforeGrams': weighed.shape.beforeGrams,
  'Step.weighedAfterGrams': weighed.shape.afterGrams,
  'Step.startedAt': workMoment,
  'Step.finishedAt': workMoment,
  'Step.note': newStep.shape.note,
  'Step.createdAt': workMoment,
  'Step.removedAt': workMoment,
  // Counted on by the program, past what a form takes.
  'StepSurface.coat': atLeast(1),
  'RuleAnswer.note': newRuleAnswer.shape.note,
  'RuleAnswer.answeredAt': workMoment,
  'Receipt.part': atLeast(0),
  'Receipt.answer': json(z.unknown()),
  'Receipt.writtenAt': workMoment,
  'Placing.placedAt': workMoment,
  'Placing.undoneAt': workMoment,
  'Placing.record': json(placingRecord),
  'Change.changedAt': workMoment,
  'Change.undoneAt': workMoment,
  'Captions.chapters': json(chapterList),
  'Captions.settled': json(settledList),
  'Captions.keptAt': workMoment,
  'AirReading.at': toldMoment,
  'AirReading.celsius': newAirReading.shape.celsius,
  'AirReading.humidity': newAirReading.shape.humidity,
  'SentenceEdit.words': newSentenceEdit.shape.words,
  'SentenceEdit.madeOn': json(madeOn),
  'SentenceEdit.editedAt': workMoment,
  'WriteUpSettings.listingTitleLimit': limits.shape.listingTitle,
  'WriteUpSettings.listingLimit': limits.shape.listing,
  'WriteUpSettings.videoLimit': limits.shape.video,
  'WriteUpSettings.captionLimit': limits.shape.caption,
  'WriteUpSettings.links': json(links),
  'WriteUpSettings.tags': json(tags),
  'OwnMark.words': z.string().max(markWordsAtMost),
  'OwnMark.changedAt': workMoment,
  'SheetSettings.credit': z.string().max(creditAtMost),
  'SheetSettings.look': json(z.unknown()),
  'CostEntry.words': newCost.shape.words,
  'CostEntry.quantity': newCost.shape.quantity,
  'CostEntry.eachMinor': newCost.shape.eachMinor,
  'CostEntry.createdAt': workMoment,
  'WorkEntry.words': newWork.shape.words,
  'WorkEntry.minutes': newWork.shape.minutes,
  'WorkEntry.createdAt': workMoment,
  'StepHours.workMinutes': stepHours.shape.workMinutes,
  'StepHours.setUpMinutes': stepHours.shape.setUpMinutes,
  'StepHours.cleanUpMinutes': stepHours.shape.cleanUpMinutes,
  'StepHours.otherPieces': stepHours.shape.otherPieces,
  'Sale.priceMinor': saleFacts.shape.priceMinor,
  'Sale.feesPaidMinor': saleFacts.shape.feesPaidMinor,
  'Sale.taxMinor': saleFacts.shape.taxMinor,
  'Sale.feePercent': saleFacts.shape.feePercent,
  'Sale.feeFixedMinor': saleFacts.shape.feeFixedMinor,
  'Rates.hourlyMinor': ratesFacts.shape.hourlyMinor,
  'Rates.yearlyOverheadMinor': ratesFacts.shape.yearlyOverheadMinor,
  'Rates.productiveHours': ratesFacts.shape.productiveHours,
  'Rates.feePercent': ratesFacts.shape.feePercent,
  'Rates.feeFixedMinor': ratesFacts.shape.feeFixedMinor,
  'Rates.setUpMinutes': ratesFacts.shape.setUpMinutes,
  'Rates.cleanUpMinutes': ratesFacts.shape.cleanUpMinutes,
  'BinSettings.keepDays': newBinRules.shape.keepDays,
  'BinSettings.originalDays': newBinRules.shape.originalDays,
  'BinSettings.countsFrom': workMoment,
  'BinSettings.lookedAt': workMoment,
  'PortfolioPage.draft': json(pieceChoice),
  'PortfolioPage.published': json(publishedContent),
  'PortfolioPage.publishedAt': workMoment,
  'PortfolioPage.changedAt': workMoment,
  'PortfolioSettings.publicAddress': portfolioSettings.shape.publicAddress,
  'PortfolioSettings.introduction': portfolioSettings.shape.introduction,
  'PortfolioSettings.contact': portfolioSettings.shape.contact,
}

/** Why a value cannot stand in a column; undefined where it can, and where nothing is said of the column. */
export function whyNotKept(
  table: string,
  column: string,
  value: Value,
): string | undefined {
  if (value === null) return undefined
  const read = columnBounds[`${table}.${column}`]?.safeParse(value)
  return read === undefined || read.success
    ? undefined
    : firstMessage(read.error)
}

/** What is wrong with a record, as `has a "column" of …: reason`; undefined where nothing is. */
export function recordFlaw(table: string, row: Row): string | undefined {
  for (const [column, value] of Object.entries(row)) {
    const reason = whyNotKept(table, column, value)
    if (reason !== undefined) return has(column, value, reason)
  }
  if (table === 'Change') return changeFlaw(row)
  return togetherFlaw(table, row)
}

function has(column: string, value: unknown, reason: string): string {
  return `has a "${column}" of ${shown(value)}, which cannot be: ${reason}`
}

/** A value in a sentence, no longer than a sentence is. */
function shown(value: unknown): string {
  const text = String(value).replaceAll(/\p{Cc}/gu, ' ')
  const short = text.length > 40 ? `${text.slice(0, 40)}…` : text
  return typeof value === 'number' ? short : `"${short}"`
}

function firstMessage(error: z.ZodError): string {
  const [issue] = error.issues
  if (issue === undefined) return 'It is not what is kept there.'
  const path = issue.path.map(String).join('.')
  return path === '' ? issue.message : `${path}: ${issue.message}`
}

/** What two values of a record say against each other. */
function togetherFlaw(table: string, row: Row): string | undefined {
  const numbers = (...columns: readonly string[]) =>
    columns.map((column) => {
      const value = row[column]
      return typeof value === 'number' ? value : undefined
    })
  if (table === 'Photo') {
    const [earliest = 0, at = 0, latest = 0] = numbers(
      'takenEarliest',
      'takenAt',
      'takenLatest',
    )
    try {
      span(instant(earliest), instant(at), instant(latest))
    } catch {
      return 'was taken outside its own earliest and latest moment.'
    }
  }
  if (table === 'Step') {
    const [startedAt, finishedAt] = numbers('startedAt', 'finishedAt')
    if (
      startedAt !== undefined &&
      finishedAt !== undefined &&
      startedAt > finishedAt
    ) {
      return 'ends before it starts.'
    }
    const [beforeGrams, afterGrams] = numbers(
      'weighedBeforeGrams',
      'weighedAfterGrams',
    )
    if (beforeGrams === undefined && afterGrams === undefined) return undefined
    const read = weighed.safeParse({ beforeGrams, afterGrams })
    if (!read.success) {
      return `was weighed as cannot be: ${firstMessage(read.error)}`
    }
  }
  if (table === 'Rates') {
    const read = ratesFacts.safeParse(
      Object.fromEntries(
        Object.entries(row).filter(([, value]) => value !== null),
      ),
    )
    if (!read.success) return `does not add up: ${firstMessage(read.error)}`
  }
  return undefined
}

/** What stands in a change is written back when it is undone, so it is held to the same. */
function changeFlaw(row: Row): string | undefined {
  const state = json(row['jobId'] === null ? keptWorkshop : keptState)
  for (const side of ['before', 'after']) {
    const read = state.safeParse(row[side])
    if (!read.success) {
      return `has a "${side}" that cannot be: ${firstMessage(read.error)}`
    }
    const parts = partsOf(read.data as KeptState | KeptWorkshop)
    for (const [table, part] of parts) {
      for (const [column, value] of Object.entries(part)) {
        const inColumn = asInColumn(table, column, value)
        const reason =
          inColumn === undefined
            ? undefined
            : whyNotKept(table, column, inColumn)
        if (reason !== undefined) {
          return `has in its "${side}" a ${table} that ${has(column, value, reason)}`
        }
      }
    }
  }
  return undefined
}

/** A value of a kept state as its column holds it; undefined for what is no column of its own. */
function asInColumn(
  table: string,
  column: string,
  value: unknown,
): Value | undefined {
  if (typeof value === 'number') return value
  if (typeof value !== 'string') return undefined
  const bound = columnBounds[`${table}.${column}`]
  return bound !== undefined && moments.has(bound) ? Date.parse(value) : value
}

/** The records, or parts of records, that stand in a kept state, by the tables that they are written back to. */
function partsOf(
  state: KeptState | KeptWorkshop,
): readonly (readonly [string, object])[] {
  const of = (table: string, parts: readonly (object | null | undefined)[]) =>
    parts.flatMap((part) => (part ? [[table, part] as const] : []))
  if ('clocks' in state) {
    return [...of('Product', state.products), ...of('Camera', state.clocks)]
  }
  const { steps } = state
  return [
    ...of('Step', steps),
    ...steps.flatMap((step) => [
      ...of('StepSurface', step.surfaces),
      ...of('RuleAnswer', step.answers),
      ...of('StepHours', [step.hours]),
    ]),
    ...of('Photo', state.photos),
    ...of('Photo', state.times ?? []),
    ...of('Photo', state.words ?? []),
    ...of('Photo', state.turns ?? []),
    ...of('Job', [state.handOver, state.facts?.job]),
    ...of('Piece', state.facts?.pieces ?? []),
  ]
}
