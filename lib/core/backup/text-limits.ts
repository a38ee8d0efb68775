/** The most that anybody can type into one field, and more: 8,000 characters are the most that any takes. */
const words = 10_000
/** What the program writes down by itself, of jobs with thousands of photos too. */
const records = 50_000_000

/** Columns that hold what the program wrote, or a file, as text. */
const recordColumns: ReadonlySet<string> = new Set([
  'Captions.chapters',
  'Captions.settled',
  'Captions.text',
  'Change.after',
  'Change.before',
  'Photo.warnings',
  'Pair.handPoints',
  'Placing.record',
  'PortfolioPage.draft',
  'PortfolioPage.published',
  'Product.label',
  'Receipt.answer',
  'SentenceEdit.madeOn',
  'WriteUpSettings.links',
  'WriteUpSettings.tags',
])

/**
 * How many characters a text of a backup may have: a journal that was filled in by hand and by this program has no longer
 * ones, and one that was made to do harm could not be shown.
 */
export function longestText(table: string, column: string): number {
  return recordColumns.has(`${table}.${column}`) ? records : words
}
