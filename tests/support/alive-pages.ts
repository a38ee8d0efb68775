import { type Page, expect, test as plain } from '@playwright/test'
import { pageIsAlive } from '../../app/_page-alive'

export { expect }

/**
 * Tests whose pages are alive once they have been gone to: a page is painted before its scripts run, and what is typed or
 * chosen before is not what a test is about. One that is about it asks for `waitUntil: 'commit'`, which waits for nothing.
 */
export const test = plain.extend<object, object>({
  browser: [
    async ({ browser }, use) => {
      const newContext = browser.newContext.bind(browser)
      browser.newContext = async (options) => {
        const context = await newContext(options)
        if (options?.javaScriptEnabled === false) return context
        await context.addInitScript((word) => {
          addEventListener(word, () => {
            Reflect.set(globalThis, 'isAlive', true)
          })
        }, pageIsAlive)
        const newPage = context.newPage.bind(context)
        context.newPage = async () => aliveOnceLoaded(await newPage())
        return context
      }
      await use(browser)
    },
    { scope: 'worker' },
  ],
})

function aliveOnceLoaded(page: Page): Page {
  for (const way of ['goto', 'reload', 'goBack', 'goForward'] as const) {
    const go = page[way].bind(page) as (
      ...given: readonly unknown[]
    ) => Promise<unknown>
    const goAndWait = async (...given: readonly unknown[]) => {
      const answer = await go(...given)
      const options = given.at(-1) as
        { readonly waitUntil?: string } | undefined
      if (options?.waitUntil !== 'commit') await untilAlive(page)
      return answer
    }
    Object.assign(page, { [way]: goAndWait })
  }
  return page
}

/** A page without scripts of the app, as that of a portfolio, never says that it is alive. */
async function untilAlive(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      Reflect.get(globalThis, 'isAlive') === true ||
      document.querySelector('script[src^="/_next/static/"][async]') === null,
    undefined,
    // A page that is not painted is given no frames.
    { polling: 50 },
  )
}
