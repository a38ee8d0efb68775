import { backedUpTables } from '#core/backup/backed-up-tables'

/** What a restore did or would do, as far as it is told. */
export type ToldRestore = {
  readonly outcome: 'restored' | 'tried' | 'asks'
  readonly madeAt: string
  readonly merge: {
    readonly tables: readonly {
      readonly table: string
      readonly added: number
      readonly same: number
      readonly differing: number
    }[]
    readonly differing: readonly string[]
    readonly intoEmpty: boolean
  }
  readonly originals: { readonly count: number; readonly byteLength: number }
  readonly missing: number
  readonly copy?: string
}

/** A restore in plain words, a line each. */
export function restoreWords(
  restore: ToldRestore,
  folder: string,
): readonly string[] {
  const { outcome, madeAt, merge, originals, missing, copy } = restore
  const done = outcome === 'restored'
  const differing = sum(merge.tables.map((one) => one.differing))
  const megabytes = Math.ceil(originals.byteLength / 1_000_000)
  return [
    `The backup of ${madeAt} is sound.`,
    `${folder} ${merge.intoEmpty ? 'holds no journal yet.' : 'holds a journal, which keeps all that it has.'}`,
    `${done ? 'Added' : 'Would add'}: ${counted(merge.tables, 'added')}; ${countOf(originals.count, 'photo file', 'photo files')} (${megabytes} MB).`,
    ...(merge.intoEmpty
      ? []
      : [`There already, and the same: ${counted(merge.tables, 'same')}.`]),
    ...(differing === 0
      ? []
      : [
          `There already, and different: ${counted(merge.tables, 'differing')}.`,
          ...merge.differing.map((line) => `  ${line}`),
          ...(differing > merge.differing.length
            ? [`  and ${differing - merge.differing.length} more`]
            : []),
        ]),
    ...(missing === 0
      ? []
      : [
          `${countOf(missing, 'photo file was', 'photo files were')} missing or damaged when the backup was made, and ${missing === 1 ? 'is' : 'are'} not in it.`,
        ]),
    ...ending(outcome, differing),
    ...(copy === undefined
      ? []
      : [`The journal as it was before is kept in ${copy}.`]),
  ]
}

function ending(
  outcome: ToldRestore['outcome'],
  differing: number,
): readonly string[] {
  const choice =
    'Add --on-conflict keep to leave those as the journal has them, or --on-conflict take to have them as in the backup.'
  switch (outcome) {
    case 'restored':
      return ['Done.']
    case 'tried':
      return [
        'Nothing was changed: this was a dry run.',
        ...(differing === 0 ? [] : [choice]),
      ]
    case 'asks':
      return ['Nothing was changed.', choice]
  }
}

type Kind = 'added' | 'same' | 'differing'

function counted(tables: ToldRestore['merge']['tables'], kind: Kind): string {
  const named = tables.flatMap((one) => {
    const words = backedUpTables.find(({ name }) => name === one.table)?.words
    const count = one[kind]
    return words === undefined || count === 0
      ? []
      : countOf(count, words[0], words[1])
  })
  const others = sum(
    tables.flatMap((one) =>
      backedUpTables.find(({ name }) => name === one.table)?.words === undefined
        ? one[kind]
        : [],
    ),
  )
  const all = [
    ...named,
    ...(others === 0 ? [] : [countOf(others, 'other record', 'other records')]),
  ]
  return all.length === 0 ? 'nothing' : all.join(', ')
}

function countOf(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
