import { type Html, dataBlock, html } from '#core/portfolio/html'
import { contactPart, pageFrame } from '#core/portfolio/page-frame'
import { factsOf, pictureTag, pricePart } from '#core/portfolio/piece-page'
import { portfolioJsonLd } from '#core/portfolio/piece-json-ld'
import {
  type PortfolioLinks,
  wholeAddress,
} from '#core/portfolio/portfolio-links'
import {
  type PortfolioHead,
  type PublishedPiece,
  leadPicture,
  sharedPicture,
} from '#core/portfolio/shown-piece'
import { capitalised } from '#core/write-ups/english-words'

/** The first page of the portfolio, whole, as HTML: all pieces that are out, in the order given. */
export function portfolioPage(
  pieces: readonly PublishedPiece[],
  head: PortfolioHead,
  links: PortfolioLinks,
): string {
  const { name, introduction, publicAddress } = head
  const [newest] = pieces
  const lead = newest && leadPicture(newest.shown)
  return pageFrame({
    head,
    links,
    title: `${name}: portfolio`,
    description:
      introduction[0] ?? `Furniture refinished by ${name}, before and after.`,
    ...(publicAddress !== undefined && {
      address: wholeAddress(publicAddress),
    }),
    ...(newest !== undefined &&
      lead !== undefined &&
      publicAddress !== undefined && {
        picture: {
          address: wholeAddress(publicAddress, newest.slug, sharedPicture.file),
          words: lead.words,
          width: sharedPicture.width,
          height: sharedPicture.height,
        },
      }),
    data: dataBlock(
      'application/ld+json',
      portfolioJsonLd(pieces, head, links),
    ),
    content: html`<h1>Portfolio</h1>
      ${introduction.map((paragraph) => html`<p class="introduction">${paragraph}</p>`)}
      ${
        pieces.length === 0
          ? html`<p class="introduction">Nothing is out yet.</p>`
          : html`${filterPart(pieces)}
              <ul class="pieces">
                ${pieces.map((piece, index) => card(piece, links, index))}
              </ul>
              <p class="none" role="status"></p>`
      }
      ${head.contact.length > 0 && contactPart(head)}`,
  })
}

/**
 * What pieces can be filtered by; only what tells some of them from others. It is shown by the script that does it,
 * since without one it would do nothing.
 */
function filterPart(pieces: readonly PublishedPiece[]): Html | undefined {
  const filters = (
    [
      ['kind', 'Kind', pieces.map(({ shown }) => [shown.kind])],
      ['colour', 'Colour', pieces.map(({ shown }) => shown.colours)],
      ['finish', 'Finish', pieces.map(({ shown }) => shown.finishes)],
    ] as const
  ).flatMap(([name, label, all]) => {
    const values = [...new Set(all.flat())].filter((one) => one !== '').sort()
    const telling = values.some((value) =>
      all.some((own: readonly string[]) => !own.includes(value)),
    )
    return telling ? [{ name, label, values }] : []
  })
  if (filters.length === 0) return undefined
  return html`<form class="filter" aria-label="Show only" hidden>
    ${filters.map(
      ({ name, label, values }) =>
        html`<label
          >${label}
          <select name="${name}">
            <option value="">All</option>
            ${values.map((value) => html`<option value="${value}">${capitalised(value)}</option>`)}
          </select>
        </label>`,
    )}
  </form>`
}

function card(
  { slug, shown }: PublishedPiece,
  links: PortfolioLinks,
  index: number,
): Html {
  const lead = leadPicture(shown)
  return html`<li
    class="card"
    data-kind="${shown.kind}"
    data-colour="${shown.colours.join('|')}"
    data-finish="${shown.finishes.join('|')}"
  >
    <a href="${links.piece(slug)}">
      ${
        lead &&
        pictureTag(lead, slug, links, {
          sizes: '(min-width: 64rem) 21rem, (min-width: 40rem) 46vw, 94vw',
          eager: index === 0,
        })
      }
      <h2>${shown.title}</h2>
    </a>
    <p class="facts">${factsOf(shown)}</p>
    ${shown.price && pricePart(shown.price)}
  </li>`
}
