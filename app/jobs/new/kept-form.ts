const key = 'coatbook-new-job'

/** What was typed into the form of a new job and not sent. */
export type KeptForm = {
  /** How many pieces it had. */
  readonly count: number
  /** The values of the fields with this name. */
  readonly values: (name: string) => readonly string[]
}

type Entries = readonly (readonly [name: string, value: string])[]

/** Keeps what stands in the form for as long as the tab lives. */
export function keepForm(form: FormData): void {
  keep(entriesOf(form))
}

/**
 * Keeps what was typed into the form before its page came alive, over what was kept of the same fields; where nothing was
 * typed, what was kept stays.
 */
export function keepTyped(form: HTMLFormElement): void {
  const typed = new Set(
    [...form.elements].flatMap((field) =>
      field instanceof HTMLInputElement && isTyped(field) ? field.name : [],
    ),
  )
  if (typed.size === 0) return
  const entries = entriesOf(new FormData(form))
  const before = keptEntries()
  keep(
    before === undefined
      ? entries
      : [
          ...before.filter(([name]) => !typed.has(name)),
          ...entries.filter(([name]) => typed.has(name)),
        ],
  )
}

function isTyped(field: HTMLInputElement): boolean {
  return (
    field.value !== field.defaultValue || field.checked !== field.defaultChecked
  )
}

function entriesOf(form: FormData): Entries {
  return [...form].flatMap(([name, value]) =>
    typeof value === 'string' ? [[name, value] as const] : [],
  )
}

function keep(entries: Entries): void {
  try {
    sessionStorage.setItem(key, JSON.stringify(entries))
  } catch {
    // A browser that keeps nothing keeps no form either.
  }
}

function keptEntries(): Entries | undefined {
  try {
    const text = sessionStorage.getItem(key)
    return text === null ? undefined : (JSON.parse(text) as Entries)
  } catch {
    return undefined
  }
}

export function forgetForm(): void {
  try {
    sessionStorage.removeItem(key)
  } catch {
    // Nothing was kept.
  }
}

/** What was kept, or undefined. */
export function keptForm(): KeptForm | undefined {
  const entries = keptEntries()
  if (entries === undefined) return undefined
  const values = (name: string) =>
    entries.filter(([one]) => one === name).map(([, value]) => value)
  const count = Number(values('pieceCount')[0])
  return Number.isInteger(count) && count > 0 ? { count, values } : undefined
}
