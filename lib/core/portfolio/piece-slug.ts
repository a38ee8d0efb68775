/** What a slug may not be, because something else stands at that address. */
const reserved = new Set(['index', 'portfolio', 'preview'])
const longest = 60

/** Words as a part of an address or of a file's name: lower-case letters, digits and hyphens; may be empty. */
export function slugOf(words: string): string {
  return words
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[’']/g, '')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, longest)
    .replace(/^-+|-+$/g, '')
}

/**
 * The first of `words`, `words-2`, `words-3` and so on that is not taken.
 *
 * @param standIn where the words leave nothing
 */
export function freeSlug(
  words: string,
  standIn: string,
  taken: ReadonlySet<string>,
): string {
  const slug = slugOf(words) || standIn
  const isFree = (one: string) => !taken.has(one) && !reserved.has(one)
  if (isFree(slug)) return slug
  let number = 2
  while (!isFree(`${slug}-${number}`)) number++
  return `${slug}-${number}`
}
