import { type Html, html } from '#core/portfolio/html'
import type { PortfolioLinks } from '#core/portfolio/portfolio-links'
import type { PortfolioHead } from '#core/portfolio/shown-piece'

/** What is around the content of every page of the portfolio. */
export function pageFrame({
  head,
  links,
  title,
  description,
  address,
  picture,
  data,
  content,
}: {
  readonly head: PortfolioHead
  readonly links: PortfolioLinks
  readonly title: string
  readonly description: string
  /** The whole address of this page, where it has one. */
  readonly address?: string
  /** The whole address of the picture that is shown where the page is linked to, where it has one. */
  readonly picture?: {
    readonly address: string
    readonly words: string
    readonly width: number
    readonly height: number
  }
  /** Blocks of data for machines. */
  readonly data: Html
  readonly content: Html
}): string {
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title}</title>
        <meta name="description" content="${description}" />
        <meta name="color-scheme" content="light dark" />
        <link rel="stylesheet" href="${links.file('portfolio.css')}" />
        <link
          rel="icon"
          type="image/svg+xml"
          href="${links.file('icon.svg')}"
        />
        ${
          address !== undefined &&
          html`<link rel="canonical" href="${address}" />
            <link
              rel="alternate"
              type="application/atom+xml"
              title="${head.name}"
              href="${head.publicAddress ?? ''}/feed.xml"
            />
            <meta property="og:url" content="${address}" />`
        }
        <meta property="og:type" content="website" />
        <meta property="og:site_name" content="${head.name}" />
        <meta property="og:title" content="${title}" />
        <meta property="og:description" content="${description}" />
        ${
          picture &&
          html`<meta property="og:image" content="${picture.address}" />
            <meta property="og:image:width" content="${picture.width}" />
            <meta property="og:image:height" content="${picture.height}" />
            <meta property="og:image:alt" content="${picture.words}" />`
        }
        ${data}
        <script src="${links.file('portfolio.js')}" defer></script>
      </head>
      <body>
        <a class="skip" href="#content">Skip to content</a>
        <header class="head">
          <a href="${links.home}">${head.name}</a>
        </header>
        <main id="content">${content}</main>
        <footer class="foot">
          <p>${head.name}</p>
          ${head.publicAddress !== undefined && html`<p class="print-only">${head.publicAddress}</p>`}
        </footer>
      </body>
    </html> `
  return page.html
}

/** How to reach the workshop; lines that are an address of mail or a number to call can be pressed. */
export function contactPart({ name, contact }: PortfolioHead): Html {
  return html`<section class="contact" aria-labelledby="contact">
    <h2 id="contact">Ask ${name}</h2>
    ${contact.map((line) => {
      const target = targetOf(line)
      return target === undefined
        ? html`<p>${line}</p>`
        : html`<p><a href="${target}">${line}</a></p>`
    })}
  </section>`
}

function targetOf(line: string): string | undefined {
  if (/^[^\s@:/?&]+@[^\s@:/?&]+\.[^\s@:/?&]+$/.test(line))
    return `mailto:${line}`
  if (/^\+?[\d ()/-]{6,24}$/.test(line)) {
    return `tel:${line.replace(/[^\d+]/g, '')}`
  }
  return /^https?:\/\/[^\s]+$/.test(line) ? line : undefined
}
