import { html } from '#core/portfolio/html'
import {
  type ShownPiece,
  pictureFile,
  type PictureSide,
} from '#core/portfolio/shown-piece'

const side: PictureSide = 1440

/** The files that a pair's snippet shows, before and after. */
export function embeddedFiles({
  before,
  after,
}: ShownPiece['pairs'][number]): readonly [before: string, after: string] {
  return [pictureFile(before.name, side), pictureFile(after.name, side)]
}

/**
 * A before/after pair for the owner's own site: HTML and CSS, no script and nothing of ours but the two pictures.
 *
 * The after lies still under the before; what scrolls sideways is a curtain that holds the before and cuts it off. So it
 * is wiped by a swipe, a scroll bar, or the arrow keys. A pair that is not aligned stands side by side.
 *
 * @param address of a picture's file
 */
export function embedPair(
  pair: ShownPiece['pairs'][number],
  address: (file: string) => string,
): string {
  const { before, after, name, aligned } = pair
  const [beforeFile, afterFile] = embeddedFiles(pair)
  const label = `Before and after: ${name.toLowerCase()}`
  const picture = (file: string, words: string, one: typeof before) =>
    html`<img
      src="${address(file)}"
      alt="${words}"
      width="${one.width}"
      height="${one.height}"
    />`
  const beforePicture = picture(beforeFile, before.words, before)
  const afterPicture = picture(afterFile, after.words, after)
  return aligned
    ? html`<style>
          ${{ html: wipeStyle }}
        </style>
        <div
          class="before-after"
          tabindex="0"
          role="group"
          aria-label="${label}"
        >
          <div class="before-after-run">
            <div class="before-after-still">${afterPicture}</div>
            <div class="before-after-curtain">
              <div class="before-after-rail">
                <div class="before-after-still">${beforePicture}</div>
              </div>
            </div>
          </div>
        </div>`.html
    : html`<style>
          ${{ html: twoStyle }}
        </style>
        <div class="before-after-two" role="group" aria-label="${label}">
          ${beforePicture} ${afterPicture}
        </div>`.html
}

const wipeStyle = [
  '.before-after{position:relative;overflow-x:auto;overflow-y:hidden;scrollbar-gutter:stable}',
  '.before-after-run{position:relative;display:flex;width:200%}',
  '.before-after-still{position:sticky;left:0;flex:none;width:50%}',
  '.before-after-curtain{position:absolute;inset:0 auto 0 0;width:50%;overflow:clip;border-right:3px solid #fff;box-sizing:border-box}',
  '.before-after-rail{display:flex;width:400%}',
  '.before-after-rail .before-after-still{width:25%}',
  '.before-after img{display:block;width:100%;height:auto}',
  '.before-after::-webkit-scrollbar{height:28px}',
  '.before-after::-webkit-scrollbar-thumb{background:#777;border:8px solid #fff;border-radius:14px}',
].join('\n')

const twoStyle = [
  '.before-after-two{display:grid;grid-template-columns:1fr 1fr;gap:4px}',
  '.before-after-two img{display:block;width:100%;height:auto}',
].join('\n')
