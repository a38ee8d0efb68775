/**
 * The content security policy of a page: everything comes from this workshop, and of scripts only its own files and what
 * bears the nonce run.
 *
 * Style attributes stay allowed, as places in a drawing are written in them; style elements are not.
 *
 * @param nonce of this one answer, in base64
 * @param inDevelopment the framework evaluates text then, to show where an error came from
 * Source: Content Security Policy Level 3, W3C Working Draft.
 */
export function pagePolicy(nonce: string, inDevelopment: boolean): string {
  return [
    "default-src 'none'",
    `script-src 'self' 'nonce-${nonce}'${inDevelopment ? " 'unsafe-eval'" : ''}`,
    // In development the styles come in style elements.
    `style-src 'self'${inDevelopment ? " 'unsafe-inline'" : ''}`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "media-src 'self' blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}
