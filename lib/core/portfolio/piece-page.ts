import { type Html, dataBlock, html } from '#core/portfolio/html'
import { contactPart, pageFrame } from '#core/portfolio/page-frame'
import { pieceJsonLd } from '#core/portfolio/piece-json-ld'
import {
  type PortfolioLinks,
  wholeAddress,
} from '#core/portfolio/portfolio-links'
import {
  type PortfolioHead,
  type PublishedPiece,
  type ShownPicture,
  type ShownPiece,
  leadPicture,
  pictureFile,
  sharedPicture,
} from '#core/portfolio/shown-piece'
import { english } from '#core/write-ups/english'
import { capitalised, listOf } from '#core/write-ups/english-words'
import { priceTag } from '#core/write-ups/price-text'

/** The page of one piece, whole, as HTML. It needs no script to be read. */
export function piecePage(
  piece: Pick<PublishedPiece, 'slug' | 'shown'>,
  head: PortfolioHead,
  links: PortfolioLinks,
): string {
  const { slug, shown } = piece
  const { publicAddress } = head
  const lead = leadPicture(shown)
  const address =
    publicAddress === undefined ? undefined : wholeAddress(publicAddress, slug)
  return pageFrame({
    head,
    links,
    title: `${shown.title} · ${head.name}`,
    description: descriptionOf(shown),
    ...(address !== undefined && { address }),
    ...(lead !== undefined &&
      publicAddress !== undefined && {
        picture: {
          address: wholeAddress(publicAddress, slug, sharedPicture.file),
          words: lead.words,
          width: sharedPicture.width,
          height: sharedPicture.height,
        },
      }),
    data: dataBlock('application/ld+json', pieceJsonLd(piece, head, links)),
    content: html`<article class="piece">
        <header class="piece-head">
          <h1>${shown.title}</h1>
          <p class="facts">${factsOf(shown)}</p>
          ${shown.price && pricePart(shown.price)}
        </header>
        ${pairsPart(shown, slug, links)}
        ${
          shown.story.length > 0 &&
          html`<section class="story" aria-label="Its story">
            ${shown.story.map((paragraph) => html`<p>${paragraph}</p>`)}
          </section>`
        }
        ${
          shown.gallery.length > 0 &&
          html`<section aria-labelledby="pictures">
            <h2 id="pictures">Pictures</h2>
            <ul class="gallery">
              ${shown.gallery.map((picture) => html`<li>${galleryLink(picture, slug, links)}</li>`)}
            </ul>
          </section>`
        }
        ${factsPart(shown)}
        ${
          shown.steps.length > 0 &&
          html`<section aria-labelledby="steps">
            <h2 id="steps">How it was made</h2>
            <ol class="steps">
              ${shown.steps.map(
                ({ words, picture }) =>
                  html`<li>
                    ${picture && galleryLink(picture, slug, links)}
                    <p>${words}</p>
                  </li>`,
              )}
            </ol>
          </section>`
        }
        ${shown.contact && head.contact.length > 0 && contactPart(head)}
      </article>
      <nav class="back" aria-label="Portfolio">
        <a href="${links.home}">All pieces</a>
      </nav>`,
  })
}

/** What is said of a piece beside its picture: what it is, its colours, its finishes. */
export function factsOf({ kind, colours, finishes }: ShownPiece): string {
  return [
    kind === '' ? '' : capitalised(kind),
    listOf(colours),
    listOf(finishes),
  ]
    .filter((part) => part !== '')
    .join(' · ')
}

/** Its price as on a tag, or that it is sold. */
export function pricePart(price: NonNullable<ShownPiece['price']>): Html {
  return price.state === 'sold'
    ? html`<p class="price price-sold">${english.tag.sold}</p>`
    : html`<p class="price">${priceTag(price.minor, price.currency)}</p>`
}

/** A picture in its two sizes. */
export function pictureTag(
  picture: ShownPicture,
  slug: string,
  links: PortfolioLinks,
  {
    sizes,
    eager = false,
  }: { readonly sizes: string; readonly eager?: boolean },
): Html {
  const { name, words, width, height } = picture
  const longer = Math.max(width, height)
  const address = (side: 720 | 1440) =>
    links.picture(slug, pictureFile(name, side))
  // A picture that is taller than wide is narrower than its longer side.
  const across = (side: number) =>
    Math.max(1, Math.round((width * Math.min(side, longer)) / longer))
  return html`<img
    src="${address(1440)}"
    srcset="${address(720)} ${across(720)}w, ${address(1440)} ${across(1440)}w"
    sizes="${sizes}"
    alt="${words}"
    width="${width}"
    height="${height}"
    ${eager ? html` fetchpriority="high"` : html` loading="lazy"`}
    decoding="async"
  />`
}

function descriptionOf(shown: ShownPiece): string {
  const [first = shown.finish ?? `${shown.title}. ${factsOf(shown)}.`] =
    shown.story
  return first.length <= 200
    ? first
    : `${first.slice(0, 199).replace(/\s+\S*$/, '')}…`
}

function pairsPart(
  { pairs }: ShownPiece,
  slug: string,
  links: PortfolioLinks,
): Html | undefined {
  if (pairs.length === 0) return undefined
  return html`<section class="pairs" aria-label="Before and after">
    ${pairs.map(({ name, before, after, aligned }, index) => {
      const sizes =
        index === 0
          ? '(min-width: 70rem) 66rem, 100vw'
          : '(min-width: 48rem) 33rem, 100vw'
      const tag = (picture: ShownPicture) =>
        pictureTag(picture, slug, links, { sizes, eager: index === 0 })
      return aligned
        ? html`<figure class="wipe" data-wipe="${name}">
            <div class="wipe-frame">
              <div class="wipe-after">${tag(after)}</div>
              <div class="wipe-before">${tag(before)}</div>
              <span class="wipe-word wipe-word-before">Before</span>
              <span class="wipe-word wipe-word-after">After</span>
            </div>
            <figcaption>${name}</figcaption>
          </figure>`
        : html`<figure class="two">
            <div class="two-frame">
              <div>
                ${tag(before)}<span class="wipe-word wipe-word-before"
                  >Before</span
                >
              </div>
              <div>
                ${tag(after)}<span class="wipe-word wipe-word-after"
                  >After</span
                >
              </div>
            </div>
            <figcaption>${name}</figcaption>
          </figure>`
    })}
  </section>`
}

function galleryLink(
  picture: ShownPicture,
  slug: string,
  links: PortfolioLinks,
): Html {
  return html`<a
    class="gallery-link"
    href="${links.picture(slug, pictureFile(picture.name, 1440))}"
    >${pictureTag(picture, slug, links, {
      sizes: '(min-width: 48rem) 21rem, 46vw',
    })}</a
  >`
}

function factsPart({ finish, materials, size }: ShownPiece): Html | undefined {
  if (finish === undefined && materials.length === 0 && size === undefined) {
    return undefined
  }
  return html`<section class="about" aria-labelledby="about">
    <h2 id="about">About it</h2>
    ${finish !== undefined && html`<p>${finish}</p>`}
    ${size !== undefined && html`<p>${size}</p>`}
    ${
      materials.length > 0 &&
      html`<h3>What went on it</h3>
        <ul>
          ${materials.map((line) => html`<li>${line}</li>`)}
        </ul>`
    }
  </section>`
}
