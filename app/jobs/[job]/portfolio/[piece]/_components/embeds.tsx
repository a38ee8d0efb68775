import { embedPair, embeddedFiles } from '#core/portfolio/embed-pair'
import { servedLinks, wholeAddress } from '#core/portfolio/portfolio-links'
import type { PortfolioHead, PublishedPiece } from '#core/portfolio/shown-piece'
import { CopyButton } from '../../../../../_components/copy-button.client'
import { PlainText } from '../../../../../_components/plain-text'

/** Each pair that is out as a snippet for the owner's own site. */
export function Embeds({
  piece: { slug, shown },
  head: { publicAddress },
}: {
  readonly piece: PublishedPiece
  readonly head: PortfolioHead
}) {
  if (shown.pairs.length === 0) return null
  return (
    <section aria-labelledby="embeds">
      <h2 id="embeds" className="text-lead mb-1 font-bold">
        For your own site
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        {publicAddress === undefined
          ? 'Paste a pair into a page of your site and put its two pictures beside that page.'
          : 'Paste a pair into a page of your site. Its two pictures come from the public address of your portfolio.'}
      </p>
      <div className="flex flex-col gap-3">
        {shown.pairs.map((pair) => {
          const snippet = embedPair(pair, (file) =>
            publicAddress === undefined
              ? file
              : wholeAddress(publicAddress, slug, file),
          )
          return (
            <details key={pair.name + pair.after.name} className="card px-4">
              <summary className="flex min-h-12 cursor-pointer items-center font-bold">
                {pair.name}
              </summary>
              <div className="flex flex-col gap-3 pb-4">
                <PlainText text={snippet} label={`Snippet: ${pair.name}`} />
                <p className="flex flex-wrap gap-3">
                  <CopyButton text={snippet}>Copy the snippet</CopyButton>
                  {embeddedFiles(pair).map((file) => (
                    <a
                      key={file}
                      href={servedLinks.picture(slug, file)}
                      download={file}
                      className="button"
                    >
                      {file}
                    </a>
                  ))}
                </p>
              </div>
            </details>
          )
        })}
      </div>
    </section>
  )
}
