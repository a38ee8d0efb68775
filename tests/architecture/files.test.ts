import { existsSync, readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'

/** Why a file of lib has no test that names it. A reason that no file needs any more fails too. */
const reasons: Readonly<Record<string, string>> = {
  'lib/core/result.ts':
    'what services give back, read in every test of a service',
  'lib/core/air/air.ts': 'types alone',
  'lib/core/drying/dry-check.ts': 'types and a list of words',
  'lib/core/write-ups/language.ts': 'types alone',
  'lib/core/drying/drying-sentences.ts':
    'its sentences are read in tests/core/drying/judge-gap.test.ts and forecast-next.test.ts',
  'lib/core/drying/gap-advice.ts':
    'its advice is read in tests/core/drying/judge-gap.test.ts',
  'lib/core/drying/mean-air.ts':
    'told in the reasons that tests/core/drying/judge-gap.test.ts reads',
  'lib/core/journal/coats.ts':
    'coats are counted through the service in tests/services/steps/steps.test.ts',
  'lib/core/materials/purpose.ts':
    'purposes are read in tests/core/materials/list-materials.test.ts',
  'lib/core/timeline/settle-gap.ts':
    'doubted clocks are settled in tests/core/timeline/read-timeline.test.ts',
  'lib/core/timeline/step-times.ts':
    'times of steps are read in tests/core/timeline/read-timeline.test.ts',
  'lib/core/write-ups/appearance.ts':
    'read in the texts of tests/core/write-ups/write-listing.test.ts',
  'lib/core/write-ups/english.ts': 'read in the texts of tests/core/write-ups',
  'lib/core/write-ups/journal-sentences.ts':
    'read in the texts of tests/core/write-ups',
  'lib/core/write-ups/missing-facts.ts':
    'its questions are read in tests/core/write-ups/write-listing.test.ts',
  'lib/services/air/air-warnings.ts':
    'its warnings are read in tests/api/air.test.ts',
  'lib/services/air/schema.ts': 'tried with bad input in tests/api/air.test.ts',
  'lib/services/clock.ts': 'one call of the machine’s clock',
  'lib/services/database/instants.ts':
    'times go there and back in tests/api/steps.test.ts',
  'lib/services/database/touch-job.ts':
    'revisions are counted in tests/services/jobs/jobs.test.ts',
  'lib/services/devices/loopback-host.ts':
    'names of this machine and of others are tried in tests/api/guards.test.ts',
  'lib/services/instant-text.ts':
    'times without offsets are tried in tests/api/steps.test.ts',
  'lib/services/intake/inspect-photo.ts':
    'broken files are tried in tests/services/intake/keep-photos.test.ts',
  'lib/services/intake/read-png-exif.ts':
    'PNG files are read in tests/services/intake/read-metadata.test.ts',
  'lib/services/intake/schema.ts':
    'tried with bad input in tests/api/photos.test.ts',
  'lib/services/materials/materials.ts':
    'read through the interface in tests/api/exports.test.ts',
  'lib/services/openapi/document.ts':
    'held against routes and answers in tests/api/openapi.test.ts',
  'lib/services/settings/data-folder.ts':
    'opened in tests/services/database/data-folder-lock.test.ts',
  'lib/services/photo-store/photo-store.ts': 'types alone',
  'lib/services/write-ups/write-ups.ts':
    'read through the interface in tests/api/exports.test.ts',
  'lib/services/openapi/queries.ts':
    'tried with bad input in tests/api/jobs.test.ts and timeline.test.ts',
}

/** Every answer of a test goes against its schema in tests/support/api.ts. */
const isAnswer = (file: string) =>
  /^lib\/services\/openapi\/.*-answer\.ts$/.test(file)

function filesUnder(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => path.posix.join(folder, file.replaceAll('\\', '/')))
    .filter((file) => /\.tsx?$/.test(file))
}

const sources = [
  ...filesUnder('lib/core'),
  ...filesUnder('lib/services'),
].filter((file) => !file.startsWith('lib/services/database/generated/'))
const named = new Set(
  filesUnder('tests')
    .filter((file) => file.endsWith('.test.ts'))
    .flatMap((file) => [
      ...readFileSync(file, 'utf8').matchAll(
        /(?:from |import\()'#(core|services)\/([^']+)'/g,
      ),
    ])
    .map(([, floor, name]) => `lib/${floor ?? ''}/${name ?? ''}.ts`),
)

function hasTest(file: string): boolean {
  const mirrored = file.replace(/^lib\//, 'tests/').replace(/\.ts$/, '.test.ts')
  return existsSync(mirrored) || named.has(file) || isAnswer(file)
}

describe('the files of lib', () => {
  test('have a test each, or a reason', () => {
    const bare = sources.filter(
      (file) => !hasTest(file) && reasons[file] === undefined,
    )
    expect(bare).toEqual([])
  })

  test('have no reason that has run out', () => {
    const idle = Object.keys(reasons).filter(
      (file) => !existsSync(file) || hasTest(file),
    )
    expect(idle).toEqual([])
  })

  test('point in their reasons at tests that are there', () => {
    const missing = Object.values(reasons)
      .flatMap((reason) => [...reason.matchAll(/tests\/[\w/.-]+\w/g)])
      .map(([file]) => file)
      .filter((file) => !existsSync(file))
    expect(missing).toEqual([])
  })
})

test('no folder has an index that passes on what stands elsewhere', () => {
  const all = ['app', 'lib', 'prisma', 'tests'].flatMap(filesUnder)
  expect(all.filter((file) => /(?:^|\/)index\.tsx?$/.test(file))).toEqual([])
})

test('no file is a drawer for what has no home', () => {
  const all = ['app', 'lib', 'prisma', 'tests'].flatMap(filesUnder)
  expect(
    all.filter((file) =>
      /(?:^|\/)(?:utils?|helpers?|misc|common|manager|types)\.tsx?$/.test(file),
    ),
  ).toEqual([])
})

test('what opens something is marked as belonging to the server', () => {
  const openers = sources.filter((file) =>
    /from '(?:#prisma-client|sharp|libsql|@prisma\/adapter-libsql)'/.test(
      readFileSync(file, 'utf8'),
    ),
  )
  const unmarked = openers.filter(
    (file) => !readFileSync(file, 'utf8').includes("import 'server-only'"),
  )
  expect(openers.length).toBeGreaterThan(0)
  // The migrations also run where no framework is: before the server starts, and in the tests' set-up.
  expect(unmarked).toEqual(['lib/services/database/migrate.ts'])
})
