import { existsSync, readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'

/** Why a file of lib has neither a test that names it nor a tested neighbour that it is a part of. */
const reasons: Readonly<Record<string, string>> = {
  'lib/core/result.ts':
    'what services give back, read in every test of a service',
  'lib/core/journal/coats.ts':
    'coats are counted through the service in tests/services/steps/steps.test.ts',
  'lib/services/air/air-warnings.ts':
    'its warnings are read in tests/api/air.test.ts',
  'lib/services/alignment/align-photos.ts':
    'maps in full size are held against the truth in tests/services/pairs/pairs.test.ts',
  'lib/services/alignment/aligned-picture.ts':
    'looked at in tests/services/pairs/pairs.test.ts',
  'lib/services/bench/bench-calendar.ts':
    'read back through the interface in tests/api/bench-calendar.test.ts',
  'lib/services/backup/archive-stream.ts':
    'whole and in parts it is read in tests/api/backup.test.ts',
  'lib/services/backup/keep-checksums.ts':
    'checksums are asked back in tests/api/backup.test.ts',
  'lib/services/backup/kept-plans.ts':
    'fetches are gone on with in tests/api/backup.test.ts',
  'lib/services/backup/plan-backup.ts':
    'what it plans is read back in tests/services/backup/round-trip.test.ts',
  'lib/services/backup/read-me.ts':
    'found in the archive by tests/api/backup.test.ts',
  'lib/services/clock.ts': 'one call of the machine’s clock',
  'lib/services/database/instants.ts':
    'times go there and back in tests/api/steps.test.ts',
  'lib/services/database/touch-job.ts':
    'revisions are counted in tests/services/jobs/jobs.test.ts',
  'lib/services/devices/local-addresses.ts':
    'the server of tests/browser/strangers.spec.ts is reached by one of them',
  'lib/services/devices/qr-code.ts':
    'its picture is looked for in tests/browser/strangers.spec.ts',
  'lib/services/devices/schema.ts':
    'codes and passphrases are typed in tests/browser/strangers.spec.ts',
  'lib/services/devices/loopback-host.ts':
    'names of this machine and of others are tried in tests/api/guards.test.ts',
  'lib/services/instant-text.ts':
    'times without offsets are tried in tests/api/steps.test.ts',
  'lib/services/materials/text-for.ts':
    'each reader’s text is read in tests/api/money.test.ts',
  'lib/services/pdf/open-pdf.ts':
    'fonts, tags and words are read back in tests/services/write-ups/care-card-pdf.test.ts and tests/services/sheets/sheet-pdf.test.ts',
  'lib/services/openapi/coming-times-answer.ts':
    'part of the answers that tests/api/timeline.test.ts reads',
  'lib/services/openapi/document.ts':
    'held against routes and answers in tests/api/openapi.test.ts',
  'lib/services/sheets/schema.ts':
    'queries are asked and refused in tests/api/sheets.test.ts',
  'lib/services/settings/data-folder.ts':
    'opened in tests/services/database/data-folder-lock.test.ts',
  'lib/services/renditions/with-credit.ts':
    'credits are read back in tests/privacy/files-that-leave.test.ts',
  'lib/services/renditions/mend-renditions.ts':
    'mended by the check in tests/services/check/check-journal.test.ts',
  'lib/services/placing/read-placing.ts':
    'its proposals are read through the interface in tests/api/placing.test.ts',
  'lib/services/photos/mend-photo.ts':
    'photos are mended through the interface in tests/api/mending.test.ts',
  'lib/services/steps/mend-order.ts':
    'steps are moved and coats numbered anew in tests/api/mending.test.ts',
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
].filter(
  (file) =>
    !file.endsWith('.d.ts') &&
    !file.startsWith('lib/services/database/generated/'),
)
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

function isNamed(file: string): boolean {
  const mirrored = file.replace(/^lib\//, 'tests/').replace(/\.ts$/, '.test.ts')
  return existsSync(mirrored) || named.has(file) || isAnswer(file)
}

/** Tested by name, or as a part of what is: a file that only its tested neighbours use is seen through them. */
const tested = new Set(sources.filter(isNamed))
for (const file of tested) {
  for (const [, floor = '', name = ''] of readFileSync(file, 'utf8').matchAll(
    /from '#(core|services)\/([^']+)'/g,
  )) {
    const part = `lib/${floor}/${name}.ts`
    // A set that grows is walked to its end, so parts of parts are found too.
    if (path.dirname(part) === path.dirname(file)) tested.add(part)
  }
}

describe('the files of lib', () => {
  test('have a test each, or a reason', () => {
    const bare = sources.filter(
      (file) => !tested.has(file) && reasons[file] === undefined,
    )
    expect(bare).toEqual([])
  })

  test('have no reason when they are gone', () => {
    const gone = Object.keys(reasons).filter((file) => !existsSync(file))
    expect(gone).toEqual([])
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
