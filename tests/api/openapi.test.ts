import { Validator } from '@seriousme/openapi-schema-validator'
import { describe, expect, test } from 'vitest'
import { programVersion } from '#services/openapi/program'
import {
  callApi,
  handlerOf,
  isCatchAll,
  memberOf,
  routes,
} from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

async function readDocument(): Promise<Readonly<Record<string, unknown>>> {
  const answer = await callApi('GET', '/api/openapi.json')
  return toObject(await answer.json())
}

function toObject(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
    ? Object.fromEntries(Object.entries(value))
    : {}
}

describe('the document of the interface', () => {
  test('is valid OpenAPI 3.1 by the OpenAPI Initiative’s own schema', async () => {
    const validator = new Validator()
    const result = await validator.validate({ ...(await readDocument()) })
    expect(result).toEqual({ valid: true })
    expect(validator.version).toBe('3.1')
  })

  test('tells of every route that there is, with its methods, and of no other', async () => {
    const there = new Map<string, readonly string[]>()
    for (const route of routes.filter((one) => !isCatchAll(one))) {
      there.set(route.template, await methodsOf(route))
    }
    const told = Object.entries(toObject((await readDocument())['paths']))
    expect(
      new Map(
        told.map(([path, operations]) => [
          path,
          Object.keys(toObject(operations))
            .map((one) => one.toUpperCase())
            .sort(),
        ]),
      ),
    ).toEqual(there)
  })

  test('says how each operation turns a stranger away, but for the health check', async () => {
    const document = await readDocument()
    expect(
      Object.keys(
        toObject(toObject(document['components'])['securitySchemes']),
      ),
    ).toEqual(['token', 'device', 'deskDevice'])
    const open: string[] = []
    for (const [path, operations] of Object.entries(
      toObject(document['paths']),
    )) {
      for (const operation of Object.values(toObject(operations))) {
        const { responses, security } = toObject(operation)
        expect(toObject(responses), path).toHaveProperty('403')
        if ('401' in toObject(responses)) expect(security).toBeUndefined()
        else open.push(path)
      }
    }
    expect(open).toEqual(['/api/health'])
  })

  test('names every operation once', async () => {
    const paths = Object.values(toObject((await readDocument())['paths']))
    const ids = paths
      .flatMap((operations) => Object.values(toObject(operations)))
      .map((operation) => toObject(operation)['operationId'])
    expect(new Set(ids).size).toBe(ids.length)
    expect(ids).not.toContain(undefined)
  })
})

/** What a route says it can do when it is asked for what it cannot. */
async function methodsOf(route: (typeof routes)[number]) {
  for (const method of ['PATCH', 'DELETE', 'PUT', 'POST', 'GET']) {
    const handler = await handlerOf(route, method)
    const answer = await handler?.(
      new Request('http://localhost:3000/', { method }),
      { params: Promise.resolve({}) },
    )
    const allowed = answer?.headers.get('allow')
    if (answer?.status === 405 && typeof allowed === 'string') {
      return allowed.split(', ').sort()
    }
  }
  return []
}

test('health tells the version of the package', async () => {
  const answer = await callApi('GET', '/api/health')
  expect(await memberOf(answer, 'status')).toBe('ok')
  expect(await memberOf(answer, 'version')).toBe(programVersion)
  expect(programVersion).toMatch(/^\d+\.\d+\.\d+$/)
})
