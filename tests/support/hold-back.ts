import type { Page } from '@playwright/test'

/**
 * Holds back what a page asks for by these addresses until it is let go on.
 *
 * @returns whether any was asked for, and what lets all of it go on
 */
export async function holdBack(
  page: Page,
  addresses: string,
): Promise<{ readonly isAsked: () => boolean; readonly letGo: () => void }> {
  let isAsked = false
  let letGo = (): void => undefined
  const held = new Promise<void>((resolve) => {
    letGo = resolve
  })
  await page.route(addresses, async (route) => {
    isAsked = true
    await held
    await route.continue()
  })
  return {
    isAsked: () => isAsked,
    letGo: () => {
      letGo()
    },
  }
}
