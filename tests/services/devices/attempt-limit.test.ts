import { expect, test } from 'vitest'
import { addMinutes, instant } from '#core/units'
import {
  deskAddress,
  forgetAttempts,
  mayAttempt,
} from '#services/devices/attempt-limit'

const noon = instant(Date.parse('2026-11-25T12:00:00Z'))
const times = (count: number, address: string, at = noon) =>
  Array.from({ length: count }, () => mayAttempt('passphrase', address, at))

test('strangers run out of attempts, one by one and together, and the desk does not', () => {
  expect(times(8, '192.168.1.2').every(Boolean)).toBe(true)
  expect(mayAttempt('passphrase', '192.168.1.2', noon)).toBe(false)
  for (const last of [3, 4, 5, 6]) times(8, `192.168.1.${last}`)
  expect(mayAttempt('passphrase', '192.168.1.7', noon)).toBe(false)
  expect(mayAttempt('passphrase', deskAddress, noon)).toBe(true)
  expect(mayAttempt('pairing', '192.168.1.7', noon)).toBe(true)
  expect(mayAttempt('passphrase', '192.168.1.7', addMinutes(noon, 16))).toBe(
    true,
  )
})

test('an attempt counts for a quarter of an hour, to the millisecond', () => {
  const later = addMinutes(noon, 600)
  times(8, '192.168.1.9', later)
  const end = addMinutes(later, 15)
  expect(mayAttempt('passphrase', '192.168.1.9', instant(end - 1))).toBe(false)
  expect(mayAttempt('passphrase', '192.168.1.9', end)).toBe(true)
})

test('all on the network together have forty, and the forty-first is turned away whoever it is', () => {
  const later = addMinutes(noon, 900)
  const addresses = Array.from({ length: 40 }, (_, last) => `10.0.0.${last}`)
  expect(
    addresses.every((address) => mayAttempt('pairing', address, later)),
  ).toBe(true)
  expect(mayAttempt('pairing', '10.0.0.99', later)).toBe(false)
  expect(mayAttempt('pairing', deskAddress, later)).toBe(true)
})

test('the desk has its own bound, and getting in takes it back', () => {
  const later = addMinutes(noon, 60)
  times(8, deskAddress, later)
  expect(mayAttempt('passphrase', deskAddress, later)).toBe(false)
  forgetAttempts('passphrase', deskAddress)
  expect(mayAttempt('passphrase', deskAddress, later)).toBe(true)
})
