import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readChecksum } from '#services/photo-store/read-checksum'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-checksum-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

function fileWith(text: string): string {
  const file = path.join(folder, 'original')
  writeFileSync(file, text)
  return file
}

const hashOf = (text: string) => createHash('sha256').update(text).digest('hex')

test('a checksum is the CRC-32 of archives', async () => {
  // The check value of CRC-32 that its catalogues give (CRC-32/ISO-HDLC); from memory.
  const text = '123456789'
  expect(await readChecksum(fileWith(text), hashOf(text))).toBe(0xcbf43926)
})

test('damaged bytes have none', async () => {
  const file = fileWith('12345678O')
  expect(await readChecksum(file, hashOf('123456789'))).toBeUndefined()
})

test('a file that is missing is an error', async () => {
  const file = path.join(folder, 'missing')
  await expect(readChecksum(file, hashOf(''))).rejects.toThrow('ENOENT')
})
