import { createReadStream } from 'node:fs'
import type { PictureFile } from '#services/portfolio/portfolio-pictures'
import { sendFile } from '../api/_http/send-file'

/**
 * What a page of the portfolio may do in a browser: show its own pictures, run its own one script, and nothing else. It is
 * kept by nobody, so that what is taken down is gone at once.
 */
const pageHeaders = {
  'cache-control': 'no-store',
  'content-security-policy':
    "default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
} as const

/** A page of the portfolio as an answer. */
export function pageAnswer(page: string, status = 200): Response {
  return new Response(page, {
    status,
    headers: { ...pageHeaders, 'content-type': 'text/html; charset=utf-8' },
  })
}

/** A feed or a sitemap as an answer. */
export function xmlAnswer(text: string, mediaType: string): Response {
  return new Response(text, {
    headers: {
      'cache-control': 'no-store',
      'content-type': `${mediaType}; charset=utf-8`,
    },
  })
}

/** A picture of the portfolio as an answer: whoever has it asks each time whether it is still out. */
export function pictureAnswer(
  request: Request,
  picture: PictureFile,
): Response {
  return sendFile(request, {
    ...picture,
    open: (range) =>
      createReadStream(
        picture.path,
        range === undefined ? {} : { start: range.first, end: range.last },
      ),
    headers: {
      'cache-control': 'no-cache, max-age=0, must-revalidate',
      'x-content-type-options': 'nosniff',
      // The owner's own site may show them.
      'cross-origin-resource-policy': 'cross-origin',
    },
  })
}
