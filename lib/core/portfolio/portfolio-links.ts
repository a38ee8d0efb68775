/** How the pages of a portfolio point at each other: served by the workshop, or as files in folders. */
export type PortfolioLinks = {
  readonly home: string
  readonly piece: (slug: string) => string
  readonly picture: (slug: string, file: string) => string
  /** A file that all pages share. */
  readonly file: (name: SiteFile) => string
}

/** The files that all pages share. */
export const siteFiles = ['portfolio.css', 'portfolio.js', 'icon.svg'] as const

type SiteFile = (typeof siteFiles)[number]

/** As the workshop serves them. */
export const servedLinks: PortfolioLinks = {
  home: '/portfolio',
  piece: (slug) => `/portfolio/${slug}`,
  picture: (slug, file) => `/portfolio/${slug}/${file}`,
  file: (name) => `/portfolio/${name}`,
}

/** As the workshop shows a page to its owner before it is out: only the pictures come from another address. */
export function previewLinks(address: string): PortfolioLinks {
  return { ...servedLinks, picture: (_slug, file) => `${address}/${file}` }
}

/** As files, from the first page: the names of the files too, so that they work without a server. */
export const copiedHomeLinks: PortfolioLinks = {
  home: 'index.html',
  piece: (slug) => `${slug}/index.html`,
  picture: (slug, file) => `${slug}/${file}`,
  file: (name) => name,
}

/** As files, from the page of a piece, which lies in a folder of its own. */
export const copiedPieceLinks: PortfolioLinks = {
  home: '../index.html',
  piece: (slug) => `../${slug}/index.html`,
  picture: (slug, file) => `../${slug}/${file}`,
  file: (name) => `../${name}`,
}

/**
 * The whole address by which anyone finds a page or a file of the portfolio. Pages end in a slash: so they are found in
 * a folder of files, and the workshop takes the slash away.
 *
 * @param publicAddress without a slash at its end
 */
export function wholeAddress(
  publicAddress: string,
  slug?: string,
  file?: string,
): string {
  const folder = slug === undefined ? '' : `${encodeURIComponent(slug)}/`
  return `${publicAddress}/${folder}${file ?? ''}`
}
