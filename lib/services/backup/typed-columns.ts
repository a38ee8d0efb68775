import { z } from 'zod'
import { jobFacts, surfaceName } from '#services/jobs/schema'
import { newCost, newWork } from '#services/money/schema'
import { photoPlacing } from '#services/photos/schema'
import { portfolioSettings } from '#services/portfolio/schema'
import { newRuleAnswer } from '#services/rules/schema'
import { creditAtMost } from '#services/sheets/sheet-settings'
import { markWordsAtMost } from '#services/sheets/own-mark'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { workshopSettings } from '#services/workshop/schema'
import { newSentenceEdit } from '#services/write-ups/schema'

const pieceFacts = jobFacts.shape.pieces.element.shape

/**
 * What a person types, by table and column, with the schema of the form that it is typed into: what a form refuses, a
 * backup cannot bring either. Choices from a list are not here: what a later version no longer offers is read as nothing,
 * or as other. A bound may be raised and not lowered, as backups of before it would be refused.
 */
export const typedColumns: Readonly<Record<string, z.ZodType>> = {
  'Workshop.name': workshopSettings.shape.name,
  'Job.title': jobFacts.shape.title,
  'Job.collection': jobFacts.shape.collection,
  'Job.client': jobFacts.shape.client,
  'Job.brief': jobFacts.shape.brief,
  'Piece.name': pieceFacts.name,
  'Piece.kind': pieceFacts.kind,
  'Piece.material': pieceFacts.material,
  'Piece.flaws': pieceFacts.flaws,
  'Piece.style': pieceFacts.style,
  'Piece.age': pieceFacts.age,
  'Piece.ageKnownBy': pieceFacts.ageKnownBy,
  'Piece.hardware': pieceFacts.hardware,
  'Surface.name': surfaceName,
  'Photo.view': photoPlacing.shape.view,
  'Photo.flaw': photoPlacing.shape.flaw,
  'Pair.view': photoPlacing.shape.view,
  'Product.name': newProduct.shape.name,
  'Product.link': newProduct.shape.link,
  'Step.note': newStep.shape.note,
  'RuleAnswer.note': newRuleAnswer.shape.note,
  'SentenceEdit.words': newSentenceEdit.shape.words,
  'CostEntry.words': newCost.shape.words,
  'WorkEntry.words': newWork.shape.words,
  'PortfolioSettings.publicAddress': portfolioSettings.shape.publicAddress,
  'PortfolioSettings.introduction': portfolioSettings.shape.introduction,
  'PortfolioSettings.contact': portfolioSettings.shape.contact,
  'OwnMark.words': z.string().max(markWordsAtMost),
  'SheetSettings.credit': z.string().max(creditAtMost),
}

/** Why a text could not have been typed there; undefined where it could, and where nobody types. */
export function whyNotTyped(
  table: string,
  column: string,
  text: string,
): string | undefined {
  const read = typedColumns[`${table}.${column}`]?.safeParse(text)
  return read === undefined || read.success
    ? undefined
    : (read.error.issues[0]?.message ?? 'It is not what is typed there.')
}
