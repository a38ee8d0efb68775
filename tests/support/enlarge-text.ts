import type { Page } from '@playwright/test'

/** The root font of twice the size that the styles give it. */
export const twice = 212.5

/**
 * Has every page that is opened from now on come with a larger root font, there before anything is drawn, as an owner's own
 * setting is. Set as a property: the pages' policy takes no style elements.
 *
 * @param percent of the browser's own size
 */
export async function enlargeText(page: Page, percent: number): Promise<void> {
  await page.addInitScript((size) => {
    new MutationObserver((_changes, observer) => {
      const root = document.querySelector('html')
      if (root === null) return
      observer.disconnect()
      root.style.setProperty('font-size', `${size}%`, 'important')
    }).observe(document, { childList: true })
  }, percent)
}
