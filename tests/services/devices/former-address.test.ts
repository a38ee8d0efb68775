import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { noteAddress } from '#services/devices/former-address'

let folder = ''
beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'coatbook-address-'))
})
afterEach(async () => {
  await rm(folder, { recursive: true })
})

const at = (...hosts: string[]) => noteAddress(folder, [...hosts, 'localhost'])

test('nothing is said of the first address, nor while the workshop is to be had at it', async () => {
  expect(await at('192.168.1.20:3443')).toBeUndefined()
  expect(await at('192.168.1.20:3443')).toBeUndefined()
  // A second network, whose address comes first.
  expect(await at('10.0.0.5:3443', '192.168.1.20:3443')).toBeUndefined()
})

test('where it cannot be noted, nothing is said and nothing fails', async () => {
  const nowhere = path.join(folder, 'gone')
  expect(await noteAddress(nowhere, ['192.168.1.20:3443'])).toBeUndefined()
  expect(await noteAddress(nowhere, ['192.168.1.33:3443'])).toBeUndefined()
})

test('the former address is said once, when the workshop is at another', async () => {
  await at('192.168.1.20:3443')
  expect(await at('192.168.1.33:3443')).toBe('192.168.1.20:3443')
  expect(await at('192.168.1.33:3443')).toBeUndefined()
  expect(await at('192.168.1.20:3443')).toBe('192.168.1.33:3443')
})
