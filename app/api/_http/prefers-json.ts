/**
 * Whether the `Accept` header asks for JSON rather than plain text: a type that it names outright wins over a
 * wildcard, then the greater weight; plain text where they are even or nothing is said (RFC 9110, 12.5.1).
 */
export function prefersJson(request: Request): boolean {
  const ranges = (request.headers.get('accept') ?? '*/*')
    .split(',')
    .map(readRange)
  return weightOf('application/json', ranges) > weightOf('text/plain', ranges)
}

type MediaRange = { readonly type: string; readonly weight: number }

function readRange(text: string): MediaRange {
  const [type = '', ...parameters] = text
    .split(';')
    .map((part) => part.trim().toLowerCase())
  const weight = parameters.find((one) => one.startsWith('q='))?.slice(2)
  return { type, weight: weight === undefined ? 1 : Number(weight) || 0 }
}

function weightOf(type: string, ranges: readonly MediaRange[]): number {
  const family = `${type.slice(0, type.indexOf('/'))}/*`
  for (const wanted of [type, family, '*/*']) {
    const range = ranges.find((one) => one.type === wanted)
    if (range !== undefined) return range.weight
  }
  return 0
}
