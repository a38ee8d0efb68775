import { html } from '#core/portfolio/html'
import { pageFrame } from '#core/portfolio/page-frame'
import type { PortfolioLinks } from '#core/portfolio/portfolio-links'
import type { PortfolioHead } from '#core/portfolio/shown-piece'

/** A page that only says something, such as that nothing is there. */
export function messagePage(
  head: PortfolioHead,
  links: PortfolioLinks,
  { title, words }: { readonly title: string; readonly words: string },
): string {
  return pageFrame({
    head,
    links,
    title: `${title} · ${head.name}`,
    description: words,
    data: html`<meta name="robots" content="noindex" />`,
    content: html`<h1>${title}</h1>
      <p class="introduction">${words}</p>
      <nav class="back" aria-label="Portfolio">
        <a href="${links.home}">All pieces</a>
      </nav>`,
  })
}
