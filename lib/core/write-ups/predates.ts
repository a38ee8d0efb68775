// How far off an age may be that its owner gives as about, or as a guess. Common practice, no source.
const doubtYears = 20

const doubted =
  /\b(about|around|circa|ca|c|maybe|perhaps|possibly|probably|likely|roughly|approx\w*|guess\w*|think|or so)\b\.?|[?~]/i

/**
 * Whether a piece may be from before a year, going by how its owner put its age: in doubt it may.
 *
 * @param age `1930s`, `about 1965`, `19th century`, `2004`; undefined where it is not known
 */
export function mayPredate(year: number, age: string | undefined): boolean {
  const years = [...(age ?? '').matchAll(/\b(1[5-9]|20)\d\d/g)].map(([found]) =>
    Number(found),
  )
  if (age === undefined || years.length === 0) return true
  // A second-hand style or a copy tells nothing of when it was made, nor does "before 2000".
  if (/\b(before|until|pre|style|lat(e|er|est)|by)\b/i.test(age)) return true
  const earliest = Math.min(...years) - (doubted.test(age) ? doubtYears : 0)
  return earliest < year
}
