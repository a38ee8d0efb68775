import { createHash } from 'node:crypto'
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { crc32, deflateRawSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { planZip, zipPieces } from '#core/backup/zip-plan'
import { openArchive } from '#services/backup/open-archive'
import { restoreBackup } from '#services/backup/restore-backup'
import { closeDatabase } from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'
import {
  backUp,
  backupMoment,
  dump,
  fillJournal,
  hashesIn,
} from '../../support/backup-journal'
import { closeWorkshop, openWorkshop } from '../../support/workshop'

// Nothing may change, so all of them can be tried on one journal.
let folder = ''
let root = ''
let sound = ''
beforeAll(async () => {
  root = openWorkshop()
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-backups-'))
  await fillJournal()
  sound = await backUp(root, folder)
  await closeDatabase()
})
afterAll(async () => {
  await closeWorkshop(root)
  rmSync(folder, { recursive: true, force: true })
})

type Contents = Map<string, Buffer>

async function contentsOf(file: string): Promise<Contents> {
  const archive = await openArchive(file)
  const contents: Contents = new Map()
  for (const name of archive.sizes.keys()) {
    const chunks: Uint8Array[] = []
    for await (const chunk of archive.read(name)) chunks.push(chunk)
    contents.set(name, Buffer.concat(chunks))
  }
  archive.close()
  return contents
}

/** A zip of files that need not be a map: a name may come twice. */
function zipOf(files: readonly (readonly [string, Buffer])[]): Buffer {
  const plan = planZip(
    files.map(([name, bytes]) => ({
      name,
      byteLength: bytes.byteLength,
      crc32: crc32(bytes),
    })),
    backupMoment,
  )
  return Buffer.concat(
    [...zipPieces(plan)].map((piece) =>
      piece.kind === 'frame'
        ? piece.bytes
        : (files[piece.file]?.[1] ?? Buffer.alloc(0)),
    ),
  )
}

/** The contents with a manifest that fits them again. */
function resealed(contents: Contents): Contents {
  const manifest = JSON.parse(
    contents.get('manifest.json')?.toString() ?? '',
  ) as Record<string, unknown>
  const files = [...contents]
    .filter(([name]) => name !== 'manifest.json')
    .map(([name, bytes]) => ({
      name,
      byteLength: bytes.byteLength,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    }))
  return new Map([
    ...contents,
    ['manifest.json', Buffer.from(JSON.stringify({ ...manifest, files }))],
  ])
}

async function changedJournal(
  change: (text: string) => string,
): Promise<Buffer> {
  const contents = await contentsOf(sound)
  const text = contents.get('journal.json')?.toString() ?? ''
  const changed = change(text)
  expect(changed).not.toBe(text)
  contents.set('journal.json', Buffer.from(changed))
  return zipOf([...resealed(contents)])
}

/** Every number of a zip's end, the directory's entry or the header of a file, overwritten where it stands. */
function patched(
  bytes: Buffer,
  name: string,
  write: (central: Buffer) => void,
): Buffer {
  const copy = Buffer.from(bytes)
  // The last time that the name stands in it is in the directory, 46 bytes into its entry.
  const at = copy.lastIndexOf(name, undefined, 'latin1') - 46
  expect(copy.readUInt32LE(at)).toBe(0x02014b50)
  write(copy.subarray(at))
  return copy
}

/** Values that the interface refuses: what is changed in the journal, and to what. */
const outOfBounds: readonly (readonly [string, RegExp, string, RegExp])[] = [
  [
    'whose cost is less than nothing',
    /"eachMinor":72.5/,
    '"eachMinor":-72.5',
    /The record cost of CostEntry has a "eachMinor" of -72.5.*less than nothing/,
  ],
  [
    'whose cost is of no number',
    /"quantity":31.2/,
    '"quantity":1e999',
    /The record cost of CostEntry has no "quantity" that can be read/,
  ],
  [
    'whose air is boiling',
    /"celsius":18/,
    '"celsius":100',
    /of AirReading has a "celsius" of 100.*not a workshop/,
  ],
  [
    'whose job began in the Middle Ages',
    /("title":"Oak sideboard","createdAt":")[^"]+/,
    '$11066-10-14T09:00:00.000Z',
    /of Job has a "createdAt" of .*before 1900/,
  ],
  [
    'whose photo was taken in the far future',
    /"takenLatest":"[^"]+"/,
    '"takenLatest":"+275760-09-13T00:00:00.000Z"',
    /of Photo has a "takenLatest" of .*after the year 2199/,
  ],
  [
    'whose photo is turned by half a quarter',
    /"quarterTurns":0/,
    '"quarterTurns":0.5',
    /of Photo has no "quarterTurns" that can be read/,
  ],
  [
    'whose photo is turned more than round',
    /"quarterTurns":0/,
    '"quarterTurns":4',
    /of Photo has a "quarterTurns" of 4.*0 to 3/,
  ],
  [
    'whose label is of another world',
    /recoatMinutes\\":60/,
    'recoatMinutes\\":-60',
    /The record primer of Product has a "label" of .*recoatMinutes: A length of time cannot be less than nothing/,
  ],
  [
    'whose step is of no kind that there is',
    /"kind":"prime"/,
    '"kind":"enchant"',
    /of Step has a "kind" of "enchant"/,
  ],
  [
    'whose title goes on behind its end',
    /"title":"Oak sideboard"/,
    '"title":"Oak\\u0000sideboard"',
    /of Job has a "title" with the character U\+0000/,
  ],
  [
    'whose revision is larger than the database counts',
    /"revision":\d+/,
    '"revision":9007199254740991',
    /of Job has a "revision" of 9007199254740991/,
  ],
]

const hostile: Readonly<
  Record<string, readonly [() => Buffer | Promise<Buffer>, RegExp]>
> = {
  'whose job has a title of ten thousand and one characters': [
    () =>
      changedJournal((text) =>
        text.replace('"Oak sideboard"', JSON.stringify('x'.repeat(10_001))),
      ),
    /"title" of more than 10000 characters/,
  ],
  'that is no zip file': [() => Buffer.from('hello'), /no zip file/],
  'that is empty': [() => Buffer.alloc(0), /no zip file/],
  'that is cut off at its end': [
    () => readFileSync(sound).subarray(0, -30),
    /its end is missing/,
  ],
  'that lost a piece of its middle': [
    () => {
      const whole = readFileSync(sound)
      return Buffer.concat([whole.subarray(0, 900), whole.subarray(1300)])
    },
    /no sound zip file|other bytes/,
  ],
  'with one bit of a photo turned': [
    () => {
      const whole = readFileSync(sound)
      // Where its first JPEG begins, and some way into it.
      const at = whole.indexOf(Buffer.from([0xff, 0xd8, 0xff])) + 200
      whole[at] = (whole[at] ?? 0) ^ 1
      return whole
    },
    /no sound zip file|other bytes/,
  ],
  'whose photo has another hash than its manifest says, with a right checksum':
    [
      async () => {
        const contents = await contentsOf(sound)
        for (const [name, bytes] of contents) {
          if (!name.startsWith('originals/')) continue
          bytes[10] = (bytes[10] ?? 0) ^ 1
          break
        }
        return zipOf([...contents])
      },
      /other bytes than were put in/,
    ],
  'whose photo is called by another hash than its own, and its manifest says so too':
    [
      async () => {
        const contents = await contentsOf(sound)
        for (const [name, bytes] of contents) {
          if (!name.startsWith('originals/')) continue
          bytes[10] = (bytes[10] ?? 0) ^ 1
          break
        }
        return zipOf([...resealed(contents)])
      },
      /called by another hash/,
    ],
  'with a name that leads out of the folder': [
    async () =>
      zipOf([
        ...(await contentsOf(sound)),
        ['../../evil.sh', Buffer.from('x')],
      ]),
    /invalid relative path|no backup has/,
  ],
  'with an absolute name': [
    async () =>
      zipOf([...(await contentsOf(sound)), ['/etc/evil', Buffer.from('x')]]),
    /absolute path|no backup has/,
  ],
  'with a file that backups do not have': [
    async () =>
      zipOf([...(await contentsOf(sound)), ['run-me.exe', Buffer.from('x')]]),
    /no backup has/,
  ],
  'with a name twice': [
    async () => {
      const contents = await contentsOf(sound)
      return zipOf([
        ...contents,
        ['journal.json', contents.get('journal.json') ?? Buffer.alloc(0)],
      ])
    },
    /twice/,
  ],
  'with a link': [
    () =>
      patched(readFileSync(sound), 'journal.json', (entry) => {
        entry.writeUInt32LE((0o120777 << 16) >>> 0, 38)
      }),
    /link/,
  ],
  'that is encrypted': [
    () =>
      patched(readFileSync(sound), 'journal.json', (entry) => {
        entry.writeUInt16LE(1, 8)
        // What is encrypted begins with 12 bytes of its own.
        entry.writeUInt32LE(entry.readUInt32LE(20) + 12, 20)
      }),
    /encrypted/,
  ],
  'with two files in one place': [
    () =>
      patched(readFileSync(sound), 'READ-ME.txt', (entry) => {
        entry.writeUInt32LE(0, 42)
      }),
    /same place/,
  ],
  'that grows a thousandfold when it is unpacked': [bomb, /would grow/],
  'without a manifest': [
    async () => {
      const contents = await contentsOf(sound)
      contents.delete('manifest.json')
      return zipOf([...contents])
    },
    /no backup of Coatbook/,
  ],
  'without one of its photos': [
    async () => {
      const contents = await contentsOf(sound)
      const name = [...contents.keys()].find((one) =>
        one.startsWith('originals/'),
      )
      contents.delete(name ?? '')
      return zipOf([...resealed(contents)])
    },
    /missing from it/,
  ],
  'whose journal is no JSON': [
    () => changedJournal((text) => text.slice(0, -10)),
    /no JSON|no journal/,
  ],
  'of a newer program': [
    () =>
      changedJournal((text) =>
        text.replace('"0001_journal"', '"9999_of_tomorrow"'),
      ),
    /newer Coatbook/,
  ],
  'whose journal has a table that is not known': [
    () =>
      changedJournal((text) => text.replace('"Camera": [', '"Passphrase": [')),
    /Passphrase.*not known/,
  ],
  'whose journal has a column that is not known': [
    () => changedJournal((text) => text.replace('"celsius":', '"kelvin":')),
    /kelvin/,
  ],
  'whose journal has a number where words belong': [
    () =>
      changedJournal((text) =>
        text.replace('"title":"Oak sideboard"', '"title":7'),
      ),
    /"title"/,
  ],
  'whose journal has a longer title than can be typed': [
    () =>
      changedJournal((text) =>
        text.replace(
          '"title":"Oak sideboard"',
          `"title":"${'oak '.repeat(40)}"`,
        ),
      ),
    /Keep the title to 120 characters/,
  ],
  'whose journal has an address that runs something': [
    () =>
      changedJournal((text) =>
        text.replace(/"link":(?:null|"[^"]*")/, '"link":"javascript:alert(1)"'),
      ),
    /The record primer of Product has a "link" of "javascript:alert\(1\)", which cannot be: Give a whole web address/,
  ],
  ...Object.fromEntries(
    outOfBounds.map(([what, from, to, why]) => [
      what,
      [() => changedJournal((text) => text.replace(from, to)), why] as const,
    ]),
  ),
  'whose records point at nothing': [
    () =>
      changedJournal((text) =>
        text.replace(/"pieceId":"[^"]+"/, '"pieceId":"nobody"'),
      ),
    /point at records that are not there/,
  ],
}

/** 10 MB of nothing, packed: 10 KB. */
function bomb(): Buffer {
  const name = 'journal.json'
  const packed = deflateRawSync(Buffer.alloc(10_000_000))
  const whole = zipOf([[name, packed]])
  // Method 8 and the size unpacked, in the local header and in the directory.
  whole.writeUInt16LE(8, 8)
  whole.writeUInt32LE(10_000_000, 22)
  return patched(whole, name, (entry) => {
    entry.writeUInt16LE(8, 10)
    entry.writeUInt32LE(10_000_000, 24)
  })
}

/** What the journal holds, read from a copy of its files: a database that is opened here changes them once it is let go. */
function rowsIn(root: string): unknown {
  const copy = mkdtempSync(path.join(folder, 'copy-'))
  for (const end of ['', '-wal', '-shm']) {
    const { database } = dataFolder(root)
    if (existsSync(`${database}${end}`)) {
      cpSync(`${database}${end}`, `${dataFolder(copy).database}${end}`)
    }
  }
  return dump(copy)
}

/** Each file by its hash, without those that a database has beside it for as long as anybody holds it open: see `rowsIn`. */
function filesIn(root: string): unknown {
  return Object.entries(hashesIn(root)).filter(
    ([name]) => !/\.db-(?:wal|shm)$/.test(name),
  )
}

describe('a backup', () => {
  test.each(Object.entries(hostile))(
    '%s changes nothing, and it is said why',
    async (_name, [make, why]) => {
      const file = path.join(folder, 'hostile.zip')
      writeFileSync(file, await make())
      const before = { rows: rowsIn(root), files: filesIn(root) }
      for (const dryRun of [true, false]) {
        const restored = await restoreBackup(
          file,
          dataFolder(root),
          { dryRun, onConflict: 'take' },
          backupMoment,
        )
        expect(restored.ok).toBe(false)
        if (restored.ok) return
        expect(restored.refusal.detail).toMatch(why)
        expect(restored.refusal.detail).toContain('Nothing was changed')
      }
      expect(filesIn(root)).toEqual(before.files)
      expect(rowsIn(root)).toEqual(before.rows)
    },
  )

  test('packed anew by another program is as good', async () => {
    const contents = await contentsOf(sound)
    // The same, in another order.
    const file = path.join(folder, 'packed-anew.zip')
    writeFileSync(file, zipOf([...contents].toReversed()))
    const restored = await restoreBackup(
      file,
      dataFolder(root),
      { dryRun: true },
      backupMoment,
    )
    expect(restored.ok).toBe(true)
  })
})
