import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { beforeEach, expect, test, vi } from 'vitest'
import yauzl from 'yauzl'
import { addMinutes } from '#core/units'
import { readBackupSettings } from '#services/backup/backup-settings'
import { dropIdleBackups } from '#services/backup/kept-plans'
import { now } from '#services/clock'
import { database, openDataFolder } from '#services/database/open-database'
import { callApi } from '../support/api'
import { dump, fillJournal } from '../support/backup-journal'
import { useWorkshop } from '../support/workshop'

useWorkshop()
let hashes: readonly string[] = []
beforeEach(async () => {
  hashes = (await fillJournal()).hashes
})

async function fetched(headers: Readonly<Record<string, string>> = {}) {
  const answer = await callApi('GET', '/api/backup', { headers })
  return { answer, bytes: Buffer.from(await answer.arrayBuffer()) }
}

function tagOf(answer: Response): string {
  return answer.headers.get('etag') ?? ''
}

test('the backup is one zip with originals, journal and manifest, under a name with its date', async () => {
  const { answer, bytes } = await fetched()
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toBe('application/zip')
  expect(answer.headers.get('content-length')).toBe(String(bytes.byteLength))
  expect(answer.headers.get('content-disposition')).toMatch(
    /^attachment; filename="coatbook-\d{4}-\d{2}-\d{2}-\d{6}Z\.zip"$/,
  )
  const zip = await yauzl.fromBufferPromise(bytes, { lazyEntries: true })
  const names: string[] = []
  for await (const entry of zip.eachEntry()) names.push(entry.fileName)
  expect(names.slice(0, 4)).toEqual([
    'manifest.json',
    'READ-ME.txt',
    'journal.schema.json',
    'journal.json',
  ])
  expect(names.slice(4).map((name) => path.parse(name).name)).toEqual(
    [...hashes].sort(),
  )
  const { downloadedAt } = await readBackupSettings()
  expect(downloadedAt).toBeDefined()
})

test('a fetch that broke off goes on with the very bytes that it began with, whatever was written since', async () => {
  const whole = await fetched()
  const tag = tagOf(whole.answer)
  const db = await database()
  await db.airReading.create({
    data: { at: new Date(0), celsius: 1, humidity: 1 },
  })
  const middle = Math.floor(whole.bytes.byteLength / 2)
  for (const headers of [
    { range: `bytes=${middle}-`, 'if-range': tag },
    { range: `bytes=${middle}-` },
  ]) {
    const rest = await fetched(headers)
    expect(rest.answer.status).toBe(206)
    expect(rest.bytes.equals(whole.bytes.subarray(middle))).toBe(true)
  }
  // A new one has what was written since.
  const next = await fetched()
  expect(tagOf(next.answer)).not.toBe(tag)
  expect(next.bytes.equals(whole.bytes)).toBe(false)
})

test('after a new start it goes on where the journal is as it was, and begins anew where it is not', async () => {
  const whole = await fetched()
  const tag = tagOf(whole.answer)
  const part = { range: 'bytes=100-199', 'if-range': tag }
  const forget = () => {
    Reflect.deleteProperty(globalThis, 'coatbookBackupPlans')
  }
  forget()
  const again = await fetched(part)
  expect(again.answer.status).toBe(206)
  expect(again.bytes.equals(whole.bytes.subarray(100, 200))).toBe(true)
  forget()
  const db = await database()
  await db.airReading.create({
    data: { at: new Date(0), celsius: 1, humidity: 1 },
  })
  const anew = await fetched(part)
  expect(anew.answer.status).toBe(200)
  expect(tagOf(anew.answer)).not.toBe(tag)
})

test('what was written down for it is cleared soon after it was fetched, and an hour after it was given up', async () => {
  const { arriving } = await openDataFolder()
  const written = () => readdirSync(arriving, { recursive: true }).length
  const { answer } = await fetched()
  await answer.text().catch(() => '')
  const end = now()
  expect(await dropIdleBackups(addMinutes(end, 4))).toBe(1)
  expect(await dropIdleBackups(addMinutes(end, 6))).toBe(0)
  const first = await callApi('GET', '/api/backup', {
    headers: { range: 'bytes=0-99' },
  })
  await first.arrayBuffer()
  expect(written()).toBeGreaterThan(0)
  const broken = now()
  expect(await dropIdleBackups(addMinutes(broken, 55))).toBe(1)
  expect(await dropIdleBackups(addMinutes(broken, 62))).toBe(0)
  expect(
    readdirSync(arriving, { recursive: true, withFileTypes: true }).filter(
      (entry) => entry.isFile(),
    ),
  ).toEqual([])
})

test('an original that turns out to have changed breaks it off, and is left out of the next', async () => {
  const { originals, root } = await openDataFolder()
  const sha256 = [...hashes].sort()[1] ?? ''
  const file = path.join(originals, sha256.slice(0, 2), sha256)
  const bytes = readFileSync(file)
  bytes[20] = (bytes[20] ?? 0) ^ 1
  writeFileSync(file, bytes)
  const answer = await callApi('GET', '/api/backup')
    .then(
      (response) => response.arrayBuffer(),
      (error: unknown) => error,
    )
    .catch((error: unknown) => error)
  expect(answer).toBeInstanceOf(Error)
  const next = await fetched()
  const text = next.bytes.toString('latin1')
  expect(text).toContain(
    `"missing": [{"sha256":"${sha256}","reason":"damaged"}]`,
  )
  expect(text).not.toContain(`${sha256}.jpg`)
  expect(dump(root)).toBeDefined()
  vi.mocked(console.error).mockClear()
})

test('originals of before checksums were kept get theirs with the first backup', async () => {
  const db = await database()
  const before = await db.original.findMany({ orderBy: { sha256: 'asc' } })
  expect(before.every((one) => one.crc32 !== null)).toBe(true)
  const first = await fetched()
  await db.original.updateMany({ data: { crc32: null } })
  const second = await fetched()
  expect(await db.original.findMany({ orderBy: { sha256: 'asc' } })).toEqual(
    before,
  )
  expect(second.bytes.byteLength).toBeGreaterThan(0)
  expect(first.answer.status).toBe(200)
})
