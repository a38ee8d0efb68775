/*
 * Wood Handbook, Forest Products Laboratory, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4: table 4-2, moisture
 * content of wood in equilibrium with air, rows in °F as printed, columns 10 to 90 %; and equation 4-5. Ten cells of the
 * table were read from the source, the rest are from memory; all agree with the equation to its last digit, which a wrong
 * digit would not. Tolerance: the table's last digit, 0.06 %.
 */
import { expect, test } from 'vitest'
import { woodMoisture } from '#core/air/wood-moisture'

const table: readonly (readonly [
  fahrenheit: number,
  cells: readonly number[],
])[] = [
  [30, [2.6, 4.6, 6.3, 7.9, 9.5, 11.3, 13.5, 16.5, 21.0]],
  [40, [2.6, 4.6, 6.3, 7.9, 9.5, 11.3, 13.5, 16.5, 21.0]],
  [50, [2.6, 4.6, 6.3, 7.9, 9.5, 11.2, 13.4, 16.4, 20.9]],
  [60, [2.5, 4.6, 6.2, 7.8, 9.4, 11.1, 13.3, 16.2, 20.7]],
  [70, [2.5, 4.5, 6.2, 7.7, 9.2, 11.0, 13.1, 16.0, 20.5]],
  [80, [2.4, 4.4, 6.1, 7.6, 9.1, 10.8, 12.9, 15.7, 20.2]],
  [90, [2.3, 4.3, 5.9, 7.4, 8.9, 10.5, 12.6, 15.4, 19.8]],
  [100, [2.3, 4.2, 5.8, 7.2, 8.7, 10.3, 12.3, 15.1, 19.5]],
  [110, [2.2, 4.0, 5.6, 7.0, 8.4, 10.0, 12.0, 14.7, 19.1]],
]

test.each(table)('the row of %d °F', (fahrenheit, cells) => {
  expect(cells).toHaveLength(9)
  for (const [i, percent] of cells.entries()) {
    const humidity = 10 * (i + 1)
    expect(
      Math.abs(
        woodMoisture({ celsius: (fahrenheit - 32) / 1.8, humidity }) - percent,
      ),
      `at ${humidity} %`,
    ).toBeLessThan(0.06)
  }
})

// Worked by hand from the equation. At 20 °C and 50 %: W 380.2, K 0.818628, K1 5.9612, K2 2.6068; K h 0.409314; terms
// 0.692947 and 1.265324; 1800 / 380.2 x 1.958271 = 9.271.
test.each([
  [20, 50, 9.271],
  [20, 75, 14.451],
  [21.1, 75, 14.406],
  [21.1, 85, 17.952],
])('at %d °C and %d %% wood comes to %d %%', (celsius, humidity, percent) => {
  expect(woodMoisture({ celsius, humidity })).toBeCloseTo(percent, 2)
})

// The humidity at 20 °C that holds wood at a moisture content, worked by bisection of the equation.
test.each([
  [4, 17.3],
  [6, 28.8],
  [8, 41.8],
  [10, 54.4],
  [12, 65],
  [16, 79.9],
])('wood at %d %% is at rest in %d %% at 20 °C', (percent, humidity) => {
  expect(
    Math.abs(woodMoisture({ celsius: 20, humidity }) - percent),
  ).toBeLessThan(0.03)
})

// From an unheated store to a heated room: 18.5 and 7.7 %, worked from the equation.
test('a piece from 5 °C and 85 % gives off eleven percent of water at 20 °C and 40 %', () => {
  expect(woodMoisture({ celsius: 5, humidity: 85 })).toBeCloseTo(18.5, 1)
  expect(woodMoisture({ celsius: 20, humidity: 40 })).toBeCloseTo(7.7, 1)
})
