import type { Page } from '@playwright/test'

/**
 * By how much a page has moved what it shows since it was opened, without being touched; 0 when nothing did.
 *
 * @param rest for so many milliseconds it is looked at still
 * Source: Layout Instability, W3C: the sum of the values of its entries.
 */
export function movedBy(page: Page, rest: number): Promise<number> {
  return page.evaluate(
    (milliseconds) =>
      new Promise<number>((resolve) => {
        let sum = 0
        new PerformanceObserver((entries) => {
          for (const entry of entries.getEntries()) {
            sum += Number(Reflect.get(entry, 'value'))
          }
        }).observe({ type: 'layout-shift', buffered: true })
        setTimeout(() => {
          resolve(sum)
        }, milliseconds)
      }),
    rest,
  )
}
