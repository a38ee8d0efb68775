import { describe, expect, test, vi } from 'vitest'
import { methods } from '../../app/api/_http/methods'
import { callApi, handlerOf, isCatchAll, routes, textOf } from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

describe('what is not there', () => {
  test.each([
    '/api/jobs/nowhere',
    '/api/jobs/nowhere/timeline',
    '/api/jobs/nowhere/materials.json',
    '/api/jobs/nowhere/materials.csv',
    '/api/jobs/nowhere/materials.txt',
    '/api/jobs/nowhere/write-ups/listing',
    '/api/jobs/nowhere/write-ups/video',
    '/api/jobs/nowhere/write-ups/caption',
    '/api/jobs/nowhere/write-ups/care',
    '/api/jobs/nowhere/write-ups/care.pdf',
    '/api/jobs/nowhere/write-ups/report',
    '/api/jobs/nowhere/write-ups/listing.jsonld',
    '/api/products/nowhere',
    '/api/photos/nowhere/thumb',
    '/api/jobs/%2e%2e%2f%2e%2e/timeline',
    '/api/nothing',
    '/api/jobs/x/materials.xml',
    '/api/jobs/x/write-ups/poem',
  ])('%s is answered with 404 and a sentence', async (address) => {
    const answer = await callApi('GET', address)
    expect(answer.status).toBe(404)
    expect(await textOf(answer, 'detail')).toMatch(/^There is no/)
  })
})

const proxied = [
  ['x-forwarded-for', '203.0.113.7'],
  ['forwarded', 'for=203.0.113.7;host=workshop.example'],
  ['x-forwarded-host', 'workshop.example'],
  ['x-real-ip', '203.0.113.7'],
  ['via', '1.1 proxy.example'],
  ['cdn-loop', 'proxy.example'],
  ['x-client-ip', '203.0.113.7'],
  ['x-cluster-client-ip', '203.0.113.7'],
  ['x-original-forwarded-for', '203.0.113.7'],
  ['x-original-host', 'workshop.example'],
  ['x-forwarded-server', 'proxy.example'],
  ['x-forwarded-proto', 'https'],
  ['true-client-ip', '203.0.113.7'],
  ['cf-connecting-ip', '203.0.113.7'],
] as const

describe('every route', () => {
  const guarded = routes.filter((route) => !isCatchAll(route))

  test.each(guarded.map((route) => [route.template, route] as const))(
    '%s answers a method that it has not with 405 and those that it has',
    async (_, route) => {
      // The one route that is patched is never put.
      const method = route.template.endsWith('/photos/{photo}')
        ? 'PUT'
        : 'PATCH'
      const handler = await handlerOf(route, method)
      const answer = await handler?.(
        new Request('http://localhost:3000/', { method }),
        { params: Promise.resolve({}) },
      )
      expect(answer?.status).toBe(405)
      expect(answer?.headers.get('allow')).toMatch(
        /^(?:GET|POST|PUT|PATCH|DELETE|, )+$/,
      )
    },
  )

  test.each<[string, Record<string, string>]>([
    [
      'a name that another site made to resolve to this machine',
      { host: 'evil.example:3000' },
    ],
    ['a page of another site', { 'sec-fetch-site': 'cross-site' }],
    [
      'a page of another server of this machine',
      { 'sec-fetch-site': 'same-site' },
    ],
    ['a form on another site', { origin: 'http://evil.example' }],
    ['a page in a sandbox', { origin: 'null' }],
    // A proxy on this machine that wrote our own name over the one that it was asked for.
    ...proxied.map(([name, value]): [string, Record<string, string>] => [
      `a proxy that says so in ${name}`,
      { host: 'localhost:3000', [name]: value },
    ]),
    [
      'a proxy that says nothing but cannot hide where the page is from',
      {
        host: 'localhost:3000',
        origin: 'https://workshop.example',
        'sec-fetch-site': 'same-origin',
      },
    ],
  ])('turns away what comes by %s', async (_, headers) => {
    const answer = await callApi('POST', '/api/jobs', {
      body: { title: 'x', pieces: [{ name: 'x', kind: 'x', surfaces: ['x'] }] },
      headers,
    })
    expect(answer.status).toBe(403)
  })

  test.each(['127.0.0.1', '::1', '::ffff:127.0.0.1'])(
    'answers this machine, whose address %s the framework writes down',
    async (address) => {
      const headers = {
        host: 'localhost:3000',
        'x-forwarded-for': address,
        'x-forwarded-host': 'localhost:3000',
        'x-forwarded-proto': 'http',
      }
      const answer = await callApi('GET', '/api/health', { headers })
      expect(answer.status).toBe(200)
    },
  )

  test('answers the framework, which asks itself by its other name for the page that an action leads on to', async () => {
    const asked = (port: number) =>
      callApi('GET', '/api/health', {
        headers: {
          host: '127.0.0.1:3000',
          origin: `http://localhost:${port}`,
          'sec-fetch-site': 'same-origin',
          'x-forwarded-for': '127.0.0.1',
          'x-forwarded-host': `localhost:${port}`,
        },
      })
    expect((await asked(3000)).status).toBe(200)
    // Another server of this machine is not ours.
    expect((await asked(8080)).status).toBe(403)
  })

  test.each(['localhost:3000', '127.0.0.1:3000', '[::1]:3000'])(
    'answers this machine by the name %s',
    async (host) => {
      const answer = await callApi('GET', '/api/health', { headers: { host } })
      expect(answer.status).toBe(200)
    },
  )

  test.each([
    ['{}', 'application/json', "default-src 'none'; frame-ancestors 'none'"],
    ['%PDF', 'application/pdf', "frame-ancestors 'none'"],
  ])(
    'lets nothing run in what it answers: %s',
    async (body, type, expected) => {
      const { GET } = methods({
        GET: () => new Response(body, { headers: { 'content-type': type } }),
      })
      const answer = await GET(new Request('http://localhost:3000/'), {})
      expect(answer.headers.get('content-security-policy')).toBe(expected)
    },
  )

  test('keeps the stricter policy of a route that has its own', async () => {
    const strict = "sandbox; default-src 'none'"
    const { GET } = methods({
      GET: () =>
        new Response('', { headers: { 'content-security-policy': strict } }),
    })
    const answer = await GET(new Request('http://localhost:3000/'), {})
    expect(answer.headers.get('content-security-policy')).toBe(strict)
  })

  test('a fault of our own is a 500 that tells nothing of the inside, and is logged once', async () => {
    const { GET } = methods({
      GET: () => {
        throw new Error('the disk is full at /somewhere')
      },
    })
    const answer = await GET(new Request('http://localhost:3000/'), {})
    expect(answer.status).toBe(500)
    expect(await answer.text()).not.toContain('/somewhere')
    const logged = vi.mocked(console.error)
    expect(logged).toHaveBeenCalledTimes(1)
    logged.mockClear()
  })
})
