import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Database from 'libsql'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { dataFolder } from '#services/settings/data-folder'
import { fuzzInterface } from '../../lib/commands/fuzz-interface'

let root = ''
let database: Database.Database

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-fuzzed-'))
  mkdirSync(dataFolder(root).arriving)
  database = new Database(dataFolder(root).database)
  database.exec('PRAGMA journal_mode = WAL; CREATE TABLE "Job" (title TEXT)')
})
afterEach(() => {
  database.close()
  rmSync(root, { recursive: true, force: true })
})

const document = {
  paths: {
    '/api/notes': {
      post: {
        requestBody: {
          content: {
            'application/json': {
              schema: {
                type: 'object',
                properties: { note: { type: 'string', maxLength: 20 } },
                required: ['note'],
              },
            },
          },
        },
      },
    },
  },
}

/** What there is to begin with, for an interface that has nothing but notes. */
const begun: Readonly<Record<string, unknown>> = {
  '/api/jobs': {
    id: 'j',
    pieces: [{ id: 'p', surfaces: [{ id: 's' }] }, { id: 'p' }],
  },
  '/api/products': { id: 'q' },
  '/api/jobs/j/steps': { id: 't' },
  '/api/jobs/j/changes': { changes: [{ id: 'c' }] },
  '/api/jobs/j/photos': { photos: [{ id: 'a' }] },
  '/api/jobs/j/pieces/p': {},
}

/** Fuzzes an interface that answers a note as the function says. */
function fuzz(answerTo: (body: string) => Response) {
  return fuzzInterface(
    {
      document,
      send: ({ address, body }) =>
        Promise.resolve(
          begun[address] === undefined
            ? answerTo(typeof body === 'string' ? body : '')
            : Response.json(begun[address]),
        ),
      root,
      photos: [],
      alike: [Buffer.alloc(0), Buffer.alloc(0)],
    },
    { milliseconds: 300, valuesOfAField: 1000, seed: 7 },
  )
}

/** Takes a note of up to 20 characters. */
function sound(body: string): Response {
  try {
    const { note } = JSON.parse(body) as { readonly note: unknown }
    if (typeof note === 'string' && note.length <= 20) {
      return Response.json({}, { status: 201 })
    }
  } catch {
    // No JSON, or null: refused like the rest.
  }
  return Response.json({}, { status: 400 })
}

describe('the fuzzer', () => {
  test('lets a sound interface pass, and tells what it sent', async () => {
    const figures = await fuzz(sound)
    // The whole body, and its one field.
    expect(figures).toMatchObject({ operations: 1, fields: 2, neverTaken: [] })
    const { '201': taken = 0 } = figures.statuses
    expect(figures.asked).toEqual({
      'POST /api/notes': { cases: figures.cases, taken },
    })
    expect(figures.cases).toBeGreaterThan(50)
    expect(Object.keys(figures.statuses)).toEqual(['201', '400'])
  })

  test('names the request that breaks something', async () => {
    const broken = fuzz((body) =>
      body.includes('\\u0000')
        ? Response.json({}, { status: 500 })
        : sound(body),
    )
    await expect(broken).rejects.toThrow(/POST \/api\/notes .*answered 500/s)
  })

  test('sees what is refused and written all the same', async () => {
    const writing = fuzz((body) => {
      const answer = sound(body)
      if (answer.status === 400 && body.includes('DROP TABLE')) {
        database.exec(`INSERT INTO "Job" VALUES ('half')`)
      }
      return body.includes('DROP TABLE')
        ? Response.json({}, { status: 400 })
        : answer
    })
    await expect(writing).rejects.toThrow(/was refused \(400\) and wrote/)
  })
})
