/** Mean grain size of the P grades, µm. Source: FEPA P grading, ISO 6344-2 and -3 (from memory of the tables). */
const grainByGrade: readonly (readonly [grade: number, micrometres: number])[] =
  [
    [12, 1815],
    [16, 1324],
    [20, 1000],
    [24, 764],
    [30, 642],
    [36, 538],
    [40, 425],
    [50, 336],
    [60, 269],
    [80, 201],
    [100, 162],
    [120, 125],
    [150, 100],
    [180, 82],
    [220, 68],
    [240, 58.5],
    [280, 52.2],
    [320, 46.2],
    [360, 40.5],
    [400, 35],
    [500, 30.2],
    [600, 25.8],
    [800, 21.8],
    [1000, 18.3],
    [1200, 15.3],
    [1500, 12.6],
    [2000, 10.3],
    [2500, 8.4],
  ]

/**
 * How coarse an abrasive is: the mean size of its grains.
 *
 * Grades are compared by this and never by number, since their numbers are not evenly spaced. A grade that the
 * standard does not list lies between its neighbours.
 *
 * @param grade P grade; below P12 and above P2500 the last listed size is taken
 * @returns µm
 * @throws RangeError unless the grade is above 0
 * Source: FEPA P grading, ISO 6344-2 and -3.
 */
export function grainSize(grade: number): number {
  if (!(grade > 0))
    throw new RangeError(`grainSize: expected a grade above 0, got ${grade}`)
  const finer = grainByGrade.findIndex(([listed]) => listed >= grade)
  const [upperGrade, upperSize] = grainByGrade.at(finer) ?? [grade, 0]
  const [lowerGrade, lowerSize] = grainByGrade.at(Math.max(0, finer - 1)) ?? [
    grade,
    0,
  ]
  if (finer < 0 || upperGrade === lowerGrade || grade < lowerGrade)
    return upperSize
  // Sizes fall by a steady ratio, so the way between two grades is a ratio too.
  const share = Math.log(grade / lowerGrade) / Math.log(upperGrade / lowerGrade)
  return lowerSize * (upperSize / lowerSize) ** share
}
