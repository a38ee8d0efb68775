import fc from 'fast-check'

/** A JSON Schema, or any other part of the interface's document. */
export type Part = Readonly<Record<string, unknown>>

/** A text that stands for the id of something that is there: replaced when the request is sent. */
const standIns: Readonly<Record<string, string>> = {
  job: '@job',
  piece: '@piece',
  surface: '@surface',
  surfaces: '@surface',
  step: '@step',
  product: '@product',
  photo: '@photo',
  photos: '@photo',
  before: '@before',
  after: '@after',
  placing: '@placing',
  pair: '@pair',
  change: '@change',
  id: '@binned',
}

/** Text that a careless program trips over, and that can stand in an address. */
export const hostileTexts: readonly string[] = [
  '',
  ' ',
  '0',
  '-1',
  'null',
  'NaN',
  '1e999',
  '9007199254740993',
  "'; DROP TABLE Job; --",
  '../../journal.db',
  '..\\..\\journal.db',
  '<script>alert(1)</script>',
  '{"$gt":""}',
  '__proto__',
  'constructor',
  '\u0000',
  'a\u0000b',
  '\u202Eright to left',
  'e\u0301\u{1F600}\u{1F469}\u200D\u{1F527}',
  '\r\nX-Injected: 1',
  '2026-02-30T25:61:00Z',
  '0000-01-01T00:00:00Z',
  '9999-12-31T23:59:59.999Z',
  '=HYPERLINK("http://elsewhere.example")',
  'x'.repeat(3000),
]

/** Values of every kind that JSON has, at and beyond the edges of what a field may be. */
export const hostileValues: readonly unknown[] = [
  ...hostileTexts,
  '\uD800',
  'x'.repeat(100_000),
  null,
  true,
  0,
  -0,
  -1,
  1,
  1.5,
  1e-320,
  1e21,
  1e308,
  -1e308,
  2 ** 53,
  -(2 ** 53),
  [],
  [[[]]],
  [null],
  Array.from({ length: 1500 }, () => 'x'),
  {},
  JSON.parse('{"__proto__":{"polluted":true},"constructor":{"prototype":1}}'),
]

/** Whole bodies that are no JSON, or none that is expected. */
export const hostileBodies: readonly string[] = [
  '',
  'null',
  '[]',
  '{}',
  '"text"',
  '{',
  '{"a":1e999}',
  '\uFEFF{}',
  '{"a":"\u0000"}',
  '['.repeat(20_000),
  `${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`,
  '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]><a>&b;</a>',
]

/**
 * Values that fit a schema of the document; ids of what is there stand in where the name of a field asks for one.
 *
 * @param full with every field that may be left out
 */
export function fitting(
  schema: Part,
  document: Part,
  { name = '', full = false }: { name?: string; full?: boolean } = {},
): fc.Arbitrary<unknown> {
  const inside = (part: unknown, key = name) =>
    fitting(toPart(part), document, { name: key, full })
  const reference = schema['$ref']
  if (typeof reference === 'string') {
    return inside(followed(document, reference))
  }
  if ('const' in schema) return fc.constant(schema['const'])
  if (Array.isArray(schema['enum'])) {
    return fc.constantFrom(...(schema['enum'] as readonly unknown[]))
  }
  const forms = schema['anyOf'] ?? schema['oneOf']
  if (Array.isArray(forms)) {
    return fc.oneof(...forms.map((form) => inside(form)))
  }
  const examples = toList(schema['examples'])
  if (schema['type'] === 'object' && examples.length > 0) {
    return fc.constantFrom(...examples)
  }
  switch (schema['type']) {
    case 'object': {
      const properties = Object.entries(toPart(schema['properties']))
      const required = toList(schema['required']).map(String)
      return fc.record(
        Object.fromEntries(
          properties.map(([key, part]) => [key, inside(part, key)]),
        ),
        full ? {} : { requiredKeys: required },
      )
    }
    case 'array': {
      const minLength = numberOf(schema['minItems'], 0)
      return fc.array(inside(schema['items']), {
        minLength: Math.max(minLength, full ? 1 : 0),
        maxLength: Math.max(minLength, 3),
      })
    }
    case 'integer':
    case 'number':
      return numbers(schema)
    case 'boolean':
      return fc.boolean()
    case 'null':
      return fc.constant(null)
    default:
      return texts(schema, name)
  }
}

/** The paths of all fields inside a value: of each member, and of each item of a list. */
export function fieldsOf(
  value: unknown,
  above: readonly string[] = [],
): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inside]) => {
    const path = [...above, key]
    return [path, ...fieldsOf(inside, path)]
  })
}

/** A value with another one, or none, at a path inside. */
export function withField(
  value: unknown,
  [key, ...rest]: readonly string[],
  put: unknown,
): unknown {
  if (key === undefined) return put
  if (Array.isArray(value)) {
    return value.map((item, index): unknown =>
      String(index) === key ? withField(item, rest, put) : item,
    )
  }
  return Object.fromEntries(
    Object.entries(toPart(value)).map(([name, inside]) => [
      name,
      name === key ? withField(inside, rest, put) : inside,
    ]),
  )
}

/** What a reference such as `#/components/schemas/Job` stands for. */
function followed(document: Part, reference: string): unknown {
  return reference
    .replace(/^#\//, '')
    .split('/')
    .reduce<unknown>((inside, key) => toPart(inside)[key], document)
}

function numbers(schema: Part): fc.Arbitrary<number> {
  const least = numberOf(
    schema['minimum'] ?? schema['exclusiveMinimum'],
    -1_000_000,
  )
  const most = numberOf(
    schema['maximum'] ?? schema['exclusiveMaximum'],
    Math.max(least, 1_000_000),
  )
  return schema['type'] === 'integer'
    ? fc.integer({ min: Math.ceil(least), max: Math.floor(most) })
    : fc.double({
        min: least,
        max: most,
        noNaN: true,
        minExcluded: schema['exclusiveMinimum'] !== undefined,
        maxExcluded: schema['exclusiveMaximum'] !== undefined,
      })
}

function texts(schema: Part, name: string): fc.Arbitrary<string> {
  if (schema['format'] === 'date-time') {
    return fc
      .date({
        min: new Date('2020-01-01T00:00:00Z'),
        max: new Date('2027-01-01T00:00:00Z'),
        noInvalidDate: true,
      })
      .map((date) => date.toISOString())
  }
  if (schema['format'] === 'uri') return fc.webUrl()
  if (typeof schema['pattern'] === 'string') {
    return fc.stringMatching(new RegExp(schema['pattern']))
  }
  const examples = toList(schema['examples']).map(String)
  if (examples.length > 0) return fc.constantFrom(...examples)
  const standIn = standIns[name]
  const minLength = numberOf(schema['minLength'], 0)
  const any = fc.string({
    minLength,
    maxLength: Math.min(
      numberOf(schema['maxLength'], minLength + 40),
      minLength + 40,
    ),
    unit: 'grapheme',
  })
  return standIn === undefined
    ? any
    : fc.oneof(
        { weight: 8, arbitrary: fc.constant(standIn) },
        { weight: 1, arbitrary: any },
      )
}

export function toPart(value: unknown): Part {
  return typeof value === 'object' && value !== null ? (value as Part) : {}
}

export function toList(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : []
}

function numberOf(value: unknown, otherwise: number): number {
  return typeof value === 'number' ? value : otherwise
}
