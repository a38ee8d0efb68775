import { createHash } from 'node:crypto'
import { readdirSync } from 'node:fs'
import { setTimeout as wait } from 'node:timers/promises'
import fc from 'fast-check'
import Database from 'libsql'
import { dataFolder } from '#services/settings/data-folder'
import {
  type Part,
  fieldsOf,
  fitting,
  hostileBodies,
  hostileTexts,
  hostileValues,
  toList,
  toPart,
  withField,
} from './fuzz-values'

/** A request as it goes out. */
export type Sent = {
  readonly method: string
  /** From `/api/` on, with its query. */
  readonly address: string
  readonly headers: Readonly<Record<string, string>>
  readonly body?: string | FormData
}

/** What is sent to, and what is looked at afterwards. */
export type Fuzzed = {
  /** The interface's own document. */
  readonly document: Part
  readonly send: (request: Sent) => Promise<Response>
  /** The data folder behind it. */
  readonly root: string
  /** Picture files that are taken when they are sent. */
  readonly photos: readonly Buffer[]
  /** Two that show the same, so that they are aligned as a pair. */
  readonly alike: readonly [Buffer, Buffer]
}

export type FuzzFigures = {
  readonly cases: number
  readonly operations: number
  /** Fields of requests that each were given hostile values, all else being as it should be. */
  readonly fields: number
  /** Operations whose requests were never taken as they should be, so that their fields were tried in one that was refused. */
  readonly neverTaken: readonly string[]
  /** How many answers there were of each status. */
  readonly statuses: Readonly<Record<string, number>>
  /** By operation: how many requests it got, and how many of them were taken. */
  readonly asked: Readonly<Record<string, Asked>>
}

type Asked = { readonly cases: number; readonly taken: number }

/** A request before the ids of what is there are put in. */
type Case = {
  readonly operation: Operation
  readonly path: Readonly<Record<string, string>>
  readonly query: readonly (readonly [string, string])[]
  readonly key: string | undefined
  readonly type: string | undefined
  readonly body: unknown
}

type Operation = {
  readonly method: string
  readonly path: string
  readonly parameters: readonly Part[]
  readonly contents: readonly (readonly [string, Part])[]
}

/** Longer than any answer takes but the alignment of a pair, on a machine that does other things. */
const patienceMilliseconds = 30_000
const casesOfAWorld = 400
const mostCandidates = 40
/** Every operation is asked so often. */
const leastCases = 3

/**
 * Sends what nobody should send: first every field of every operation with hostile values, then chance, until the time is
 * over.
 *
 * @param options how long, how many hostile values each field gets at most, and a seed: the same one sends the same again
 * @throws Error that names the request after which something was wrong: an answer of 500 or above, no answer, an answer
 *   that refuses and has written all the same, or a file left behind
 */
export async function fuzzInterface(
  fuzzed: Fuzzed,
  {
    milliseconds,
    valuesOfAField,
    seed,
  }: {
    readonly milliseconds: number
    readonly valuesOfAField: number
    readonly seed: number
  },
): Promise<FuzzFigures> {
  const until = performance.now() + milliseconds
  const operations = operationsOf(fuzzed.document)
  const statuses: Record<string, number> = {}
  const tally: Record<string, Asked> = {}
  const watch = new StateWatch(fuzzed.root)
  let world = await makeWorld(fuzzed)
  let cases = 0
  const run = async (one: Case): Promise<boolean> => {
    cases += 1
    if (cases % casesOfAWorld === 0) world = await makeWorld(fuzzed)
    const request = toRequest(one, world, fuzzed.photos)
    watch.before(request)
    const answer = await answerTo(fuzzed, request)
    const text = await answer.text()
    statuses[answer.status] = (statuses[answer.status] ?? 0) + 1
    const wrong =
      answer.status >= 500
        ? `answered ${answer.status}`
        : watch.wrongAfter(request, answer.status)
    if (wrong !== undefined) {
      throw new Error(`${told(request)}: ${wrong} ${text.slice(0, 400)}`)
    }
    const name = nameOf(one.operation)
    const before = tally[name] ?? { cases: 0, taken: 0 }
    tally[name] = {
      cases: before.cases + 1,
      taken: before.taken + (answer.ok ? 1 : 0),
    }
    if (answer.ok && one.operation.method === 'DELETE') {
      world = await makeWorld(fuzzed)
    } else if (answer.ok && one.operation.method === 'POST') {
      world = { ...world, ...namedIn(one.operation, text) }
    }
    return answer.ok
  }
  try {
    let fields = 0
    const neverTaken: string[] = []
    for (const operation of operations) {
      const [full, ...others] = [true, false].flatMap((isFull) =>
        fc.sample(
          caseOf(operation, fuzzed.document, { full: isFull, chance: false }),
          { seed, numRuns: mostCandidates },
        ),
      )
      if (full === undefined) continue
      // What it works on is as nobody has touched it.
      world = await makeWorldFor(operation, fuzzed)
      const candidates = [full, ...others]
      let fine = full
      let taken = false
      for (const candidate of candidates) {
        taken = await run(candidate)
        if (taken) fine = candidate
        if (taken) break
      }
      if (!taken) neverTaken.push(nameOf(operation))
      for (const field of sweepOf(fine, full.body)) {
        const first = (seed + fields) % field.length
        const chosen = [...field.slice(first), ...field.slice(0, first)]
        fields += 1
        for (const one of chosen.slice(0, valuesOfAField)) await run(one)
      }
      // One with few fields is not left to chance, which the machine's speed decides.
      while ((tally[nameOf(operation)]?.cases ?? 0) < leastCases) {
        await run(fine)
      }
    }
    let last: Promise<unknown> = Promise.resolve()
    await fc.assert(
      fc.asyncProperty(anyCase(operations, fuzzed.document), async (one) => {
        last = run(one)
        await last
      }),
      {
        seed,
        numRuns: Number.MAX_SAFE_INTEGER,
        // The sweep takes as long as it takes; chance gets its share all the same.
        interruptAfterTimeLimit: Math.max(
          milliseconds / 4,
          until - performance.now(),
        ),
      },
    )
    // The time is over in the middle of a request.
    await last
    await watch.allArrived()
    return {
      cases,
      operations: operations.length,
      fields,
      neverTaken,
      statuses,
      asked: tally,
    }
  } finally {
    watch.close()
  }
}

function nameOf({ method, path }: Operation): string {
  return `${method} ${path}`
}

function operationsOf(document: Part): readonly Operation[] {
  return Object.entries(toPart(document['paths'])).flatMap(([path, methods]) =>
    Object.entries(toPart(methods)).map(([method, operation]) => ({
      method: method.toUpperCase(),
      path,
      parameters: toList(toPart(operation)['parameters']).map(toPart),
      contents: Object.entries(
        toPart(toPart(toPart(operation)['requestBody'])['content']),
      ).map(([type, content]) => [type, toPart(toPart(content)['schema'])]),
    })),
  )
}

function named(operation: Operation, place: string): readonly Part[] {
  return operation.parameters.filter((one) => one['in'] === place)
}

/**
 * For each field of a request, the cases that give it each hostile value, all else being as it was.
 *
 * @param full a body with every field, for those that this request goes without
 */
function* sweepOf(fine: Case, full: unknown): Generator<readonly Case[]> {
  const { operation } = fine
  for (const { name } of named(operation, 'path')) {
    yield hostileTexts.map((text) => ({
      ...fine,
      path: { ...fine.path, [String(name)]: text },
    }))
  }
  for (const { name } of named(operation, 'query')) {
    yield hostileTexts.map((text) => ({
      ...fine,
      query: [[String(name), text] as const],
    }))
  }
  if (named(operation, 'header').length > 0) {
    yield hostileTexts.map((key) => ({ ...fine, key }))
  }
  if (operation.contents.length === 0) return
  yield hostileBodies.map((body) => ({ ...fine, body: new Raw(body) }))
  const whole = Array.isArray(fine.body)
    ? fine.body
    : { ...toPart(full), ...toPart(fine.body) }
  for (const field of fieldsOf(whole)) {
    const [top = ''] = field
    const base = Array.isArray(fine.body)
      ? fine.body
      : { ...toPart(fine.body), [top]: toPart(whole)[top] }
    yield hostileValues.map((value) => ({
      ...fine,
      body: withField(base, field, value),
    }))
  }
}

/** A body that goes out as it is. */
class Raw {
  constructor(readonly text: string) {}
}

function anyCase(
  operations: readonly Operation[],
  document: Part,
): fc.Arbitrary<Case> {
  return fc.oneof(
    ...operations.map((operation) =>
      caseOf(operation, document, { full: false, chance: true }),
    ),
  )
}

function caseOf(
  operation: Operation,
  document: Part,
  { full, chance }: { readonly full: boolean; readonly chance: boolean },
): fc.Arbitrary<Case> {
  const parameter = (part: Part) => {
    const fits = fitting(toPart(part['schema']), document, {
      name: String(part['name']),
    }).map(String)
    return chance
      ? fc.oneof(
          { weight: 8, arbitrary: fits },
          { weight: 1, arbitrary: fc.constantFrom(...hostileTexts) },
          {
            weight: 1,
            arbitrary: fc.string({ unit: 'binary' }).map(wellFormed),
          },
        )
      : fits
  }
  const contents = operation.contents.map(([type, schema]) =>
    bodyOf(schema, document, { full, chance }).map((body) => ({ type, body })),
  )
  return fc
    .record({
      path: fc.record(
        Object.fromEntries(
          named(operation, 'path').map((part) => [
            String(part['name']),
            parameter(part),
          ]),
        ),
      ),
      query: fc
        .array(
          fc.oneof(
            fc.constant(undefined),
            ...named(operation, 'query').map((part) =>
              parameter(part).map(
                (value) => [String(part['name']), value] as const,
              ),
            ),
          ),
          { maxLength: chance ? 3 : 0 },
        )
        .map((all) => all.filter((one) => one !== undefined)),
      key:
        named(operation, 'header').length > 0 && chance
          ? fc.option(fc.uuid(), { nil: undefined })
          : fc.constant(undefined),
      content:
        contents.length === 0
          ? fc.constant({ type: undefined, body: undefined })
          : fc.oneof(...contents),
    })
    .map(({ content, ...rest }) => ({ operation, ...rest, ...content }))
}

/** A body that fits, that fits but for one field, or that is of another kind altogether. */
function bodyOf(
  schema: Part,
  document: Part,
  { full, chance }: { readonly full: boolean; readonly chance: boolean },
): fc.Arbitrary<unknown> {
  const fits = fitting(schema, document, { full })
  if (!chance) return fits
  const hostile = fc.oneof(
    fc.constantFrom(...hostileValues),
    fc.anything({ maxDepth: 3, withNullPrototype: false }).map(asJson),
  )
  const spoilt = fc
    .tuple(fits, fc.nat(), hostile)
    .map(([body, chosen, value]) => {
      const fields = fieldsOf(body)
      const field = fields[chosen % Math.max(1, fields.length)]
      return field === undefined ? value : withField(body, field, value)
    })
  return fc.oneof(
    { weight: 5, arbitrary: fits },
    { weight: 5, arbitrary: spoilt },
    { weight: 1, arbitrary: fc.json().map((text) => new Raw(text)) },
    {
      weight: 1,
      arbitrary: fc.constantFrom(...hostileBodies).map((text) => new Raw(text)),
    },
  )
}

/** What is left of a value in JSON; null where nothing is. */
function asJson(value: unknown): unknown {
  try {
    const inside: unknown = JSON.parse(JSON.stringify([value]))
    return toList(inside)[0]
  } catch {
    return null
  }
}

/** Halves of characters cannot stand in an address. */
function wellFormed(text: string): string {
  return text.replaceAll(/\p{Surrogate}/gu, '\uFFFD')
}

function toRequest(
  { operation, path, query, key, type, body }: Case,
  world: World,
  photos: readonly Buffer[],
): Sent {
  const put = (value: string) =>
    encodeURIComponent(wellFormed(idsPutIn(value, world) as string))
  const filled = operation.path.replaceAll(/\{(\w+)\}/g, (_, name: string) =>
    // An empty part would be another address.
    put(path[name] === '' ? ' ' : (path[name] ?? ' ')),
  )
  const asked = query.map(([name, value]) => `${name}=${put(value)}`).join('&')
  const request = {
    method: operation.method,
    address: asked === '' ? filled : `${filled}?${asked}`,
  }
  const headers: Record<string, string> = {}
  if (key !== undefined) {
    const sent = key.replaceAll(/[^\t\x20-\xFF]/g, '')
    headers['idempotency-key'] = sent
  }
  if (type === undefined) return { ...request, headers }
  if (type === 'multipart/form-data' && !(body instanceof Raw)) {
    return { ...request, headers, body: formOf(body, world, photos) }
  }
  headers['content-type'] =
    type === 'multipart/form-data' ? `${type}; boundary=x` : type
  return {
    ...request,
    headers,
    body:
      body instanceof Raw
        ? body.text
        : type === 'application/json'
          ? JSON.stringify(idsPutIn(body, world))
          : captionOrCsv(String(body), type),
  }
}

/** Text that begins like what is asked for, so that more than its first line is read. */
function captionOrCsv(text: string, type: string): string {
  const begins: Readonly<Record<string, string>> = {
    'text/csv': 'time,temperature °C,humidity %\n2026-10-22 09:00,20,50\n',
    'text/vtt': 'WEBVTT\n\n00:01.000 --> 00:02.000\n',
    'application/x-subrip': '1\n00:00:01,000 --> 00:00:02,000\n',
  }
  return `${begins[type] ?? ''}${text}`
}

function formOf(body: unknown, world: World, photos: readonly Buffer[]) {
  const form = new FormData()
  for (const [name, value] of Object.entries(toPart(body))) {
    for (const [index, one] of [value].flat().entries()) {
      if (name !== 'file') {
        const put = idsPutIn(one, world)
        form.append(name, typeof put === 'string' ? put : JSON.stringify(put))
        continue
      }
      // A photo as it is, one that is cut short, or no photo at all.
      const text = typeof one === 'string' ? one : JSON.stringify(one)
      const photo = photos[(text.length + index) % photos.length]
      const bytes =
        photo === undefined || text.length % 3 === 0
          ? Buffer.from(text)
          : text.length % 3 === 1
            ? photo
            : photo.subarray(0, photo.byteLength / 2)
      form.append('file', new Blob([new Uint8Array(bytes)]), text.slice(0, 300))
    }
  }
  return form
}

/** The ids of what is there, by the texts that stand for them. */
type World = Readonly<Record<string, string>>

function idsPutIn(value: unknown, world: World): unknown {
  if (typeof value === 'string') {
    return Object.hasOwn(world, value) ? world[value] : value
  }
  if (Array.isArray(value)) return value.map((one) => idsPutIn(one, world))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [key, idsPutIn(one, world)]),
  )
}

const enamel = {
  name: 'enamel',
  category: 'paint',
  chemistry: 'waterborne-acrylic',
  label: { recoatMinutes: 120 },
}

/**
 * A job with a before, an after and a photo of neither, a product, two steps in no order of time and a piece in the bin, so that what names one
 * of them gets further than to its name.
 */
async function makeWorld(fuzzed: Fuzzed): Promise<World> {
  const job = await asked(fuzzed, 'POST', '/api/jobs', {
    title: 'Pine dresser',
    pieces: [
      { name: 'dresser', kind: 'chest', surfaces: ['top', 'body'] },
      { name: 'stool', kind: 'stool', surfaces: ['seat'] },
      { name: 'shelf', kind: 'other', surfaces: ['board'] },
    ],
  })
  const [piece, stool] = toList(job['pieces']).map(toPart)
  const surface = toPart(toList(piece?.['surfaces'])[0])
  const at = `/api/jobs/${String(job['id'])}`
  const product = await asked(fuzzed, 'POST', '/api/products', enamel)
  const coat = {
    kind: 'coat',
    surfaces: [surface['id']],
    product: product['id'],
  }
  const step = await asked(fuzzed, 'POST', `${at}/steps`, coat)
  await asked(fuzzed, 'POST', `${at}/steps`, coat)
  const [change] = toList(
    (await asked(fuzzed, 'GET', `${at}/changes`))['changes'],
  )
  const [one, other, loose] = fuzzed.photos
  const before = await sendPhoto(fuzzed, at, one, 'before')
  const after = await sendPhoto(fuzzed, at, other, 'after')
  const photo = await sendPhoto(fuzzed, at, loose)
  await asked(fuzzed, 'DELETE', `${at}/pieces/${String(stool?.['id'])}`)
  return {
    '@job': String(job['id']),
    '@piece': String(piece?.['id']),
    '@surface': String(surface['id']),
    '@product': String(product['id']),
    '@step': String(step['id']),
    '@change': String(toPart(change)['id']),
    '@photo': photo,
    '@before': before,
    '@after': after,
    '@binned': String(stool?.['id']),
  }
}

/** The same, with what one operation alone asks for and takes long to make. */
async function makeWorldFor(
  { path }: Operation,
  fuzzed: Fuzzed,
): Promise<World> {
  const world = await makeWorld(fuzzed)
  if (path === '/api/workshop/mark') {
    await asked(fuzzed, 'POST', path, fileForm(fuzzed.photos[0]))
  }
  const at = `/api/jobs/${String(world['@job'])}`
  if (path === '/api/changes/{change}') {
    const product = `/api/products/${String(world['@product'])}`
    await asked(fuzzed, 'PUT', product, { ...enamel, name: 'enamel, grey' })
    const [change] = toList(
      (await asked(fuzzed, 'GET', '/api/changes'))['changes'],
    )
    return { ...world, '@change': String(toPart(change)['id']) }
  }
  if (path === '/api/jobs/{job}/placing/{placing}') {
    const placing = await asked(fuzzed, 'POST', `${at}/placing`, {
      choices: [{ photos: [world['@photo']], place: { as: 'before' } }],
    })
    return { ...world, '@placing': String(placing['id']) }
  }
  if (!path.startsWith('/api/jobs/{job}/pairs/{pair}/')) return world
  const [one, other] = fuzzed.alike
  const pair = await asked(fuzzed, 'POST', `${at}/pairs`, {
    before: await sendPhoto(fuzzed, at, one, 'before'),
    after: await sendPhoto(fuzzed, at, other, 'after'),
  })
  return { ...world, '@pair': String(pair['id']) }
}

async function sendPhoto(
  fuzzed: Fuzzed,
  at: string,
  bytes: Buffer | undefined,
  role?: string,
): Promise<string> {
  const form = fileForm(bytes)
  if (role !== undefined) form.append('role', role)
  const sent = await asked(fuzzed, 'POST', `${at}/photos`, form)
  return String(toPart(toList(sent['photos'])[0])['id'])
}

function fileForm(bytes: Buffer | undefined): FormData {
  const form = new FormData()
  form.append('file', new Blob([new Uint8Array(bytes ?? [])]), 'photo.jpg')
  return form
}

/** The answer to a request that has to be taken. */
async function asked(
  fuzzed: Fuzzed,
  method: string,
  address: string,
  body?: unknown,
): Promise<Part> {
  const answer = await answerTo(fuzzed, {
    method,
    address,
    ...(body === undefined
      ? { headers: {} }
      : body instanceof FormData
        ? { headers: {}, body }
        : {
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify(body),
          }),
  })
  const text = await answer.text()
  if (!answer.ok) throw new Error(`${address} cannot be begun with: ${text}`)
  return text === '' ? {} : toPart(JSON.parse(text))
}

/** What an answer has made that a later request can name. */
function namedIn({ path }: Operation, text: string): World {
  const kind = /\/(placing|pairs)$/.exec(path)?.[1]
  if (kind === undefined || !text.startsWith('{')) return {}
  const { id } = toPart(JSON.parse(text))
  return typeof id === 'string'
    ? { [`@${kind.replace('pairs', 'pair')}`]: id }
    : {}
}

async function answerTo(fuzzed: Fuzzed, request: Sent): Promise<Response> {
  const over = new AbortController()
  const silence = wait(patienceMilliseconds, undefined, {
    signal: over.signal,
  }).then(
    () => {
      throw new Error(`${told(request)}: no answer`)
    },
    // It was answered.
    () => new Response(),
  )
  try {
    return await Promise.race([
      fuzzed.send(request).catch((error: unknown) => {
        throw new Error(`${told(request)}: failed`, { cause: error })
      }),
      silence,
    ])
  } finally {
    over.abort()
  }
}

function told({ method, address, headers, body }: Sent): string {
  const text =
    body instanceof FormData
      ? JSON.stringify(
          [...body].map(([name, value]) => [
            name,
            typeof value === 'string'
              ? value.slice(0, 200)
              : `${value.name}, ${value.size} bytes`,
          ]),
        )
      : (body ?? '')
  return `${method} ${address.slice(0, 600)} ${JSON.stringify(headers)} ${text.slice(0, 2000)}`
}

/** Written in the background, by what an earlier request began. */
const background = ['Original', 'Pair', 'PairSearch', 'Device']
/** The same of single columns: a photo whose rendition shows that it is damaged is told so, which touches its job. */
const backgroundColumns: Readonly<Record<string, readonly string[]>> = {
  Photo: ['warnings'],
  Job: ['revision'],
}

/** Sees whether a request that was refused has left something in the database, and whether files are left over. */
class StateWatch {
  readonly #database: Database.Database
  readonly #arriving: string
  #version = -1
  /** By table: a hash of its rows. */
  #state: ReadonlyMap<string, string> = new Map()

  constructor(root: string) {
    const folder = dataFolder(root)
    this.#arriving = folder.arriving
    this.#database = new Database(folder.database, { readonly: true })
  }

  before({ method }: Sent): void {
    if (method !== 'GET') this.#look()
  }

  wrongAfter({ method }: Sent, status: number): string | undefined {
    if (method === 'GET' || status < 400) return undefined
    const before = this.#state
    this.#look()
    const written = [...this.#state.keys()].filter(
      (table) => this.#state.get(table) !== before.get(table),
    )
    return written.length === 0
      ? undefined
      : `was refused (${status}) and wrote ${written.join(', ')}`
  }

  /** Files that arrive stay for as long as renditions are made of them, and no longer; plans of backups stay for a day. */
  async allArrived(): Promise<void> {
    const left = () =>
      readdirSync(this.#arriving).filter((name) => !name.startsWith('backup-'))
    const until = performance.now() + patienceMilliseconds
    while (performance.now() < until) {
      if (left().length === 0) return
      await wait(100)
    }
    throw new Error(`left behind: ${left().join(', ')}`)
  }

  close(): void {
    this.#database.close()
  }

  #look(): void {
    const version = Number(
      toPart(this.#database.prepare('PRAGMA data_version').get())[
        'data_version'
      ],
    )
    if (version === this.#version) return
    this.#version = version
    const tables = this.#database
      .prepare(
        `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name`,
      )
      .all()
      .map((row) => String(toPart(row)['name']))
      .filter((name) => !background.includes(name))
    this.#state = new Map(
      tables.map((table) => [table, this.#hashOf(table)] as const),
    )
  }

  #hashOf(table: string): string {
    const left = backgroundColumns[table] ?? []
    const rows = this.#database.prepare(`SELECT * FROM "${table}"`).all()
    const text = JSON.stringify(rows, (key, value: unknown) =>
      left.includes(key) ? undefined : value,
    )
    return createHash('sha256').update(text).digest('hex')
  }
}
