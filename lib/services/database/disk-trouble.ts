/** What is wrong with the disk that the journal is on, as far as an exception tells. */
export type DiskTrouble = 'full' | 'read-only' | 'busy'

const full = /\b(?:ENOSPC|EDQUOT|SQLITE_FULL)\b|database or disk is full/
const readOnly =
  /\b(?:EROFS|EACCES|EPERM|SQLITE_READONLY\w*|SQLITE_CANTOPEN\w*|SQLITE_IOERR_DELETE\w*)\b|readonly database|unable to open (?:database file|connection to local database)/i
const busy = /\bSQLITE_BUSY\w*\b|database is locked/

/**
 * Whether an exception says that the disk is full, that nothing may be written on it, or that another program holds the
 * database; undefined for all else. Drivers wrap one exception in others, with the code in any of them.
 */
export function diskTrouble(error: unknown): DiskTrouble | undefined {
  const told = wordsOf(error)
  if (full.test(told)) return 'full'
  if (readOnly.test(told)) return 'read-only'
  return busy.test(told) ? 'busy' : undefined
}

const deepest = 6

function wordsOf(error: unknown, depth = 0): string {
  if (typeof error !== 'object' || error === null || depth > deepest) return ''
  const words = ['message', 'code', 'originalMessage', 'originalCode'].flatMap(
    (name) => {
      const value: unknown = Reflect.get(error, name)
      return typeof value === 'string' ? value : []
    },
  )
  const inner = ['cause', 'meta', 'driverAdapterError'].map((name) =>
    wordsOf(Reflect.get(error, name), depth + 1),
  )
  return [...words, ...inner].join(' ')
}
