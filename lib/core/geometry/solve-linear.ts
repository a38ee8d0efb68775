/**
 * The solution of as many linear equations as unknowns, by Gaussian elimination with partial pivoting.
 *
 * @param matrix n rows of n coefficients and the right-hand side
 * @returns the n unknowns, or undefined when the equations do not settle them
 * Source: G. H. Golub and C. F. Van Loan, "Matrix Computations", 4th ed. (2013), section 3.4, cited from memory.
 */
export function solveLinear(
  matrix: readonly (readonly number[])[],
): readonly number[] | undefined {
  const rows = matrix.map((row) => [...row])
  const n = rows.length
  for (let column = 0; column < n; column += 1) {
    let pivot = column
    for (let row = column + 1; row < n; row += 1) {
      if (
        Math.abs(rows[row]?.[column] ?? 0) >
        Math.abs(rows[pivot]?.[column] ?? 0)
      ) {
        pivot = row
      }
    }
    const upper = rows[pivot]
    const displaced = rows[column]
    if (upper === undefined || displaced === undefined) return undefined
    rows[pivot] = displaced
    rows[column] = upper
    const lead = upper[column] ?? 0
    if (!(Math.abs(lead) > 1e-12)) return undefined
    for (let row = column + 1; row < n; row += 1) {
      const lower = rows[row]
      if (lower === undefined) continue
      const factor = (lower[column] ?? 0) / lead
      for (let k = column; k <= n; k += 1) {
        lower[k] = (lower[k] ?? 0) - factor * (upper[k] ?? 0)
      }
    }
  }
  const solution = new Array<number>(n).fill(0)
  for (let row = n - 1; row >= 0; row -= 1) {
    const equation = rows[row] ?? []
    let value = equation[n] ?? 0
    for (let k = row + 1; k < n; k += 1) {
      value -= (equation[k] ?? 0) * (solution[k] ?? 0)
    }
    solution[row] = value / (equation[row] ?? 1)
  }
  return solution
}
