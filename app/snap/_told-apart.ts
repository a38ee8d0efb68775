/** Something that is offered by a name. */
export type Offered = {
  readonly name: string
  /** What is read beside its name, such as its surfaces and its job. */
  readonly beside: string
  /** What may tell it from others that are read alike, the plainest first; the last always does. */
  readonly marks: readonly (string | undefined)[]
}

/** The names of what is offered, where several are read alike each with the first mark that tells them apart. */
export function toldApart(offered: readonly Offered[]): readonly string[] {
  return offered.map(({ name, beside, marks }) => {
    const alike = offered.filter(
      (one) => one.name === name && one.beside === beside,
    )
    if (alike.length < 2) return name
    const mark = marks.find(
      (_, index) =>
        new Set(alike.map((one) => one.marks[index])).size === alike.length,
    )
    return mark === undefined ? name : `${name} ${mark}`
  })
}
