const key = 'coatbook-new-job'

/** What was typed into the form of a new job and not sent. */
export type KeptForm = {
  /** How many pieces it had. */
  readonly count: number
  /** The values of the fields with this name. */
  readonly values: (name: string) => readonly string[]
}

/** Keeps what stands in the form for as long as the tab lives. */
export function keepForm(form: FormData): void {
  const entries = [...form].filter(([, value]) => typeof value === 'string')
  try {
    sessionStorage.setItem(key, JSON.stringify(entries))
  } catch {
    // A browser that keeps nothing keeps no form either.
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
  try {
    const text = sessionStorage.getItem(key)
    if (text === null) return undefined
    const entries = JSON.parse(text) as readonly (readonly [string, string])[]
    const values = (name: string) =>
      entries.filter(([one]) => one === name).map(([, value]) => value)
    const count = Number(values('pieceCount')[0])
    return Number.isInteger(count) && count > 0 ? { count, values } : undefined
  } catch {
    return undefined
  }
}
