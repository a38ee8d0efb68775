import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { flushFolder } from '#services/files/flush-folder'
import { writeWhole } from '#services/files/write-whole'

let root = ''
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-files-'))
})
afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

test('a file takes the place of the one that had its name, in folders that are made for it', async () => {
  const file = path.join(root, 'a', 'b', 'file')
  const unfinished = path.join(root, 'unfinished')
  await writeWhole(file, Buffer.from('first'), unfinished)
  await writeWhole(file, Buffer.from('second'), unfinished)
  await flushFolder(path.dirname(file))
  expect(readFileSync(file, 'utf8')).toBe('second')
  expect(readdirSync(unfinished)).toEqual([])
})

test('what cannot be given its name leaves nothing behind', async () => {
  const unfinished = path.join(root, 'unfinished')
  const folder = path.join(root, 'taken', 'by a folder')
  await writeWhole(path.join(folder, 'file'), Buffer.from('there'), unfinished)
  await expect(
    writeWhole(folder, Buffer.from('in its place'), unfinished),
  ).rejects.toThrow(/EISDIR|ENOTEMPTY|EEXIST/)
  expect(readdirSync(unfinished)).toEqual([])
  expect(readFileSync(path.join(folder, 'file'), 'utf8')).toBe('there')
})
