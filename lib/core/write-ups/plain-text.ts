// Control and format characters that no reader sees, but not the joiners that hold emoji and some scripts together.
const unseen =
  /[\p{Cc}\u200B\u2028\u2029\u202A-\u202E\u2060\u2066-\u2069\uFEFF]/gu

/**
 * What the owner typed as one line of plain text: single spaces, no control characters, no `<` or `>`,
 * which places that show descriptions may refuse or read as markup.
 */
export function plainText(typed: string): string {
  return typed
    .replace(unseen, ' ')
    .replace(/[<>]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
}
