/** Something on a lane, from one place to another, in drawn minutes. */
export type Placed = { readonly from: number; readonly to: number }

/** Marks that stand too close for a finger, drawn as one; most hold a single mark. */
export type Gathered<Mark extends Placed> = {
  readonly marks: readonly Mark[]
  readonly from: number
  readonly to: number
}

/**
 * Marks gathered so that no two groups begin closer than a finger is wide, each mark in exactly one group and in order.
 *
 * @param marks in order of `from`
 * @param leastLength in drawn minutes
 */
export function gatherMarks<Mark extends Placed>(
  marks: readonly Mark[],
  leastLength: number,
): readonly Gathered<Mark>[] {
  const groups: { marks: Mark[]; from: number; to: number }[] = []
  for (const mark of marks) {
    const group = groups.at(-1)
    if (group !== undefined && mark.from - group.from < leastLength) {
      group.marks.push(mark)
      group.to = Math.max(group.to, mark.to)
    } else groups.push({ marks: [mark], from: mark.from, to: mark.to })
  }
  return groups
}

/** Those that can be seen between two places, in their order. */
export function withinView<One extends Placed>(
  items: readonly One[],
  from: number,
  to: number,
): readonly One[] {
  return items.filter((item) => item.to >= from && item.from <= to)
}
