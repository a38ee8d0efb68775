import { readdirSync } from 'node:fs'
import path from 'node:path'
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js'
import formats from 'ajv-formats'
import { expect } from 'vitest'
import { openApiDocument } from '#services/openapi/document'

const folder = path.join(process.cwd(), 'app', 'api')

/** A route file under app/api: its address as Next has it, and as the interface's document has it. */
export type Route = {
  readonly file: string
  readonly segments: readonly string[]
  readonly template: string
}

/** All route files under app/api, the ones that match most closely first. */
export const routes: readonly Route[] = readdirSync(folder, {
  recursive: true,
  encoding: 'utf8',
})
  .filter((file) => path.basename(file) === 'route.ts')
  .map((file) => {
    const segments = path.dirname(file).split(path.sep)
    return {
      file: path.join(folder, file),
      segments,
      template: `/api/${segments.join('/')}`.replaceAll(/\[(\w+)\]/g, '{$1}'),
    }
  })
  .sort((one, other) => looseness(one) - looseness(other))

/** The route that answers for addresses that nothing else answers for. */
export function isCatchAll(route: Route): boolean {
  return route.segments.some((segment) => segment.includes('...'))
}

function looseness(route: Route): number {
  if (isCatchAll(route)) return 1000
  return route.segments.filter((segment) => segment.startsWith('[')).length
}

type Handler = (request: Request, context: unknown) => Promise<Response>

/** A handler that a route file exports. */
export async function handlerOf(
  route: Route,
  method: string,
): Promise<Handler | undefined> {
  const exported: unknown = await import(route.file)
  const handler: unknown =
    typeof exported === 'object' && exported !== null
      ? Reflect.get(exported, method)
      : undefined
  if (!isFunction(handler)) return undefined
  return async (request, context) => {
    const answer = await handler(request, context)
    if (!(answer instanceof Response)) {
      throw new Error(`${method} of ${route.template} gave no response`)
    }
    return answer
  }
}

function isFunction(
  value: unknown,
): value is (request: Request, context: unknown) => unknown {
  return typeof value === 'function'
}

const document: unknown = JSON.parse(JSON.stringify(openApiDocument()))
const ajv = new Ajv2020({
  strict: false,
  validateSchema: false,
  allErrors: true,
})
formats(ajv)
ajv.addSchema({ $id: 'coatbook', ...toObject(document) })

/**
 * Sends a request to the handler that the program has at an address, as the server would, and holds the answer against
 * the interface's document: its status, its media type and, for JSON, its schema.
 *
 * @param address from `/api/` on, with its query
 */
export async function callApi(
  method: string,
  address: string,
  init: {
    readonly body?: unknown
    readonly headers?: Readonly<Record<string, string>>
  } = {},
): Promise<Response> {
  const url = new URL(address, 'http://localhost:3000')
  const { route, params } = match(url.pathname)
  const handler = await handlerOf(route, method)
  if (handler === undefined) throw new Error(`no ${method} at ${address}`)
  const { body, headers } = bodyOf(init)
  const answer = await handler(
    new Request(url, {
      method,
      headers: { host: 'localhost:3000', ...headers, ...init.headers },
      ...(body === undefined ? {} : { body }),
    }),
    { params: Promise.resolve(params) },
  )
  await expectDocumented(method, route, answer.clone())
  return answer
}

function bodyOf(init: { readonly body?: unknown }): {
  readonly body?: BodyInit
  readonly headers: Readonly<Record<string, string>>
} {
  const { body } = init
  if (body === undefined) return { headers: {} }
  if (typeof body === 'string' || body instanceof FormData) {
    return { body, headers: {} }
  }
  return {
    body: JSON.stringify(body),
    headers: { 'content-type': 'application/json' },
  }
}

function match(pathname: string): {
  readonly route: Route
  readonly params: Readonly<Record<string, string>>
} {
  const parts = pathname.split('/').slice(2).map(decodeURIComponent)
  for (const route of routes) {
    if (isCatchAll(route)) return { route, params: {} }
    if (route.segments.length !== parts.length) continue
    const params: Record<string, string> = {}
    const fits = route.segments.every((segment, index) => {
      const part = parts[index] ?? ''
      if (!segment.startsWith('[')) return segment === part
      params[segment.slice(1, -1)] = part
      return true
    })
    if (fits) return { route, params }
  }
  throw new Error(`nothing answers at ${pathname}`)
}

async function expectDocumented(
  method: string,
  route: Route,
  answer: Response,
): Promise<void> {
  const type = (answer.headers.get('content-type') ?? '').split(';')[0] ?? ''
  const responses = at(document, [
    'paths',
    route.template,
    method.toLowerCase(),
    'responses',
  ])
  if (responses === undefined || answer.status >= 400) {
    expect(type).toBe('application/problem+json')
    expectFits('#/components/schemas/Problem', await answer.json())
    return
  }
  const told = at(responses, [String(answer.status)])
  expect(
    told,
    `status ${answer.status} of ${method} ${route.template}`,
  ).toBeDefined()
  const content = at(told, ['content'])
  if (content === undefined) {
    expect(await answer.text()).toBe('')
    return
  }
  expect(Object.keys(toObject(content))).toContain(type)
  if (type !== 'application/json') return
  const pointer = [
    'paths',
    route.template,
    method.toLowerCase(),
    'responses',
    String(answer.status),
    'content',
    type,
    'schema',
  ]
  expectFits(
    `#/${pointer.map((key) => encodeURIComponent(key.replaceAll('~', '~0').replaceAll('/', '~1'))).join('/')}`,
    await answer.json(),
  )
}

const validators = new Map<string, ValidateFunction>()

function expectFits(pointer: string, value: unknown): void {
  const validate =
    validators.get(pointer) ?? ajv.compile({ $ref: `coatbook${pointer}` })
  validators.set(pointer, validate)
  validate(value)
  expect(validate.errors ?? []).toEqual([])
}

function at(value: unknown, keys: readonly string[]): unknown {
  return keys.reduce<unknown>((inside, key) => toObject(inside)[key], value)
}

function toObject(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
    ? Object.fromEntries(Object.entries(value))
    : {}
}

/** A member of an answer, found by its keys and indexes; undefined where there is none. */
export async function memberOf(
  answer: Response,
  ...keys: readonly (string | number)[]
): Promise<unknown> {
  return at(await answer.clone().json(), keys.map(String))
}

/** Text in an answer; fails where there is none. */
export async function textOf(
  answer: Response,
  ...keys: readonly (string | number)[]
): Promise<string> {
  const found = await memberOf(answer, ...keys)
  if (typeof found !== 'string') {
    throw new Error(`no text at ${keys.join('.')} in ${await answer.text()}`)
  }
  return found
}
