/** How a table takes part in backups. Rows are found by the table's own key. */
export type BackedUpTable = {
  readonly name: string
  /** What one row and several are called; absent where the owner has no word for them. */
  readonly words?: readonly [one: string, many: string]
  /** The table whose rows this one's belong to: they are compared, kept and replaced together with it. */
  readonly partOf?: string
  /** Columns that the program works out again, or that count changes: a difference in them alone is none. */
  readonly workedOut?: readonly string[]
  /** One row with the workshop's settings, which every journal has from its first start. */
  readonly settings?: boolean
}

/** Everything that a backup holds, each table after those that its rows point at. */
export const backedUpTables: readonly BackedUpTable[] = [
  { name: 'Workshop', settings: true, workedOut: ['createdAt'] },
  { name: 'WriteUpSettings', settings: true },
  { name: 'Rates', settings: true },
  { name: 'PortfolioSettings', settings: true },
  { name: 'SheetSettings', settings: true },
  {
    name: 'BinSettings',
    settings: true,
    workedOut: ['countsFrom', 'lookedAt'],
  },
  { name: 'OwnMark', settings: true, workedOut: ['changedAt'] },
  {
    name: 'Camera',
    words: ['camera', 'cameras'],
    workedOut: ['createdAt'],
  },
  { name: 'Product', words: ['product', 'products'] },
  { name: 'AirReading', words: ['air reading', 'air readings'] },
  { name: 'Job', words: ['job', 'jobs'], workedOut: ['revision'] },
  { name: 'Piece', words: ['piece', 'pieces'] },
  { name: 'Surface', words: ['surface', 'surfaces'] },
  {
    name: 'Original',
    words: ['original', 'originals'],
    workedOut: ['keptAt', 'likeness', 'sharpness', 'colours', 'crc32'],
  },
  { name: 'Step', words: ['step', 'steps'] },
  { name: 'StepSurface', partOf: 'Step' },
  { name: 'StepHours', partOf: 'Step' },
  { name: 'Photo', words: ['photo', 'photos'] },
  { name: 'PhotoSurface', partOf: 'Photo' },
  {
    name: 'Pair',
    words: ['before/after pair', 'before/after pairs'],
    workedOut: ['createdAt'],
  },
  { name: 'RuleAnswer', words: ['answer to a finding', 'answers to findings'] },
  { name: 'Placing' },
  { name: 'Change' },
  { name: 'Receipt' },
  { name: 'Captions', words: ['caption file', 'caption files'] },
  { name: 'SentenceEdit', words: ['reworded sentence', 'reworded sentences'] },
  { name: 'CostEntry', words: ['cost', 'costs'] },
  { name: 'WorkEntry', words: ['work entry', 'work entries'] },
  { name: 'Sale', words: ['sale', 'sales'] },
  {
    name: 'PortfolioPage',
    words: ['page of the portfolio', 'pages of the portfolio'],
  },
]

/** What no backup holds, and why. */
export const leftOutTables: Readonly<Record<string, string>> = {
  Passphrase: 'who gets a backup must not get in by it',
  Device: 'who gets a backup must not get in by it',
  PairingCode: 'it is good for five minutes',
  BackupSettings: 'the folder is one of this machine',
  ReleasedOriginal: 'their files are on the way out of this data folder',
}
