import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { now } from '#services/clock'
import { instant } from '#core/units'
import { forgetAttempts, mayAttempt } from '#services/devices/attempt-limit'
import {
  addSession,
  readDevices,
  revokeDevice,
} from '#services/devices/devices'
import { lanEnvironment } from '#services/devices/lan'
import { makePairingCode, pairPhone } from '#services/devices/pairing'
import {
  changePassphrase,
  forgetPassphrase,
  isPassphrase,
} from '#services/devices/passphrase'
import { database } from '#services/database/open-database'
import { isCalendarFeed, standingOf } from '#services/devices/standing'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const host = '192.168.1.20:3443'
beforeEach(() => {
  Object.assign(
    process.env,
    lanEnvironment({ hosts: [host], fingerprint: '00' }),
  )
})
afterEach(() => {
  delete process.env['COATBOOK_LAN']
})

const words = 'oak tin lamp river'
const atDesk = { host: 'localhost:3000' }
const onNetwork = { host, 'x-coatbook-door': 'network' }
const minute = 60_000
/** A guess is costly by design, and more so on a machine that does other things. */
const patience = 180_000

function standing(headers: Readonly<Record<string, string>>, at = now()) {
  return standingOf(new Headers(headers), at)
}

describe('without a passphrase', { timeout: patience }, () => {
  test('the desk computer is let in, and the network is not', async () => {
    expect(await standing(atDesk)).toBe('welcome')
    expect(await standing(onNetwork)).toBe('unknown')
  })

  test('nobody signs in by an empty one', async () => {
    expect(await isPassphrase('')).toBe(false)
  })
})

describe('with a passphrase', { timeout: patience }, () => {
  test('the desk computer has to sign in too', async () => {
    expect((await changePassphrase('', words, now())).ok).toBe(true)
    expect(await standing(atDesk)).toBe('unknown')
    expect(await isPassphrase('oak tin lamp rivers')).toBe(false)
    expect(await isPassphrase(words)).toBe(true)
    const token = await addSession('desk', 'passphrase', now())
    const cookie = `other=1; coatbook-device=${token}`
    expect(await standing({ ...atDesk, cookie })).toBe('welcome')
    // A cookie of the desk is not tied to HTTPS, so it counts for nothing on the network.
    expect(await standing({ ...onNetwork, cookie })).toBe('unknown')
  })

  test('changing it asks for the old one and signs out who came by it, but no paired phone', async () => {
    await changePassphrase('', words, now())
    const session = await addSession('desk', 'passphrase', now())
    const { code } = await makePairingCode(now())
    const phone = await pairPhone(code, 'phone', now())
    const wrong = await changePassphrase('guess', 'another four words', now())
    expect(wrong.ok).toBe(false)
    expect((await changePassphrase(words, 'short', now())).ok).toBe(false)
    expect(await isPassphrase(words)).toBe(true)
    expect(
      (await changePassphrase(words, 'another four words', now())).ok,
    ).toBe(true)
    const by = (token: string) =>
      standing({ ...onNetwork, authorization: `Bearer ${token}` })
    expect(await by(session)).toBe('unknown')
    expect(phone.ok && (await by(phone.value))).toBe('welcome')
    await forgetPassphrase()
    expect(await standing(atDesk)).toBe('welcome')
  })

  test('is not in the database, and neither is a token or a code', async () => {
    await changePassphrase('', words, now())
    const token = await addSession('desk', 'passphrase', now())
    const { code } = await makePairingCode(now())
    const db = await database()
    const kept = JSON.stringify([
      await db.passphrase.findMany(),
      await db.device.findMany(),
      await db.pairingCode.findMany(),
    ])
    expect(kept).not.toContain(words)
    expect(kept).not.toContain(token)
    expect(kept).not.toContain(code)
    expect(kept).not.toContain(code.replaceAll('-', ''))
  })
})

describe('a pairing code', () => {
  test('is good for one phone, however it is typed', async () => {
    const { code } = await makePairingCode(now())
    const typed = ` ${code.toLowerCase().replaceAll('-', ' ')} `
    expect((await pairPhone(typed, 'first', now())).ok).toBe(true)
    expect((await pairPhone(code, 'second', now())).ok).toBe(false)
    expect((await readDevices(now())).map((one) => one.name)).toEqual(['first'])
  })

  test('is good for one of two phones that come at once', async () => {
    const { code } = await makePairingCode(now())
    const both = await Promise.all([
      pairPhone(code, 'one', now()),
      pairPhone(code, 'other', now()),
    ])
    expect(both.filter((one) => one.ok)).toHaveLength(1)
  })

  test('ends after five minutes, and when another is made', async () => {
    const made = now()
    const { code } = await makePairingCode(made)
    const later = instant(made + 5 * minute)
    expect((await pairPhone(code, 'late', later)).ok).toBe(false)
    const again = await makePairingCode(made)
    await makePairingCode(made)
    expect((await pairPhone(again.code, 'old', made)).ok).toBe(false)
  })
})

describe('a device', () => {
  test('is let in by its token until it is revoked', async () => {
    const { code } = await makePairingCode(now())
    const token = await pairPhone(code, 'phone', now())
    if (!token.ok) throw new Error('not paired')
    const asked = { ...onNetwork, authorization: `Bearer ${token.value}` }
    expect(await standing(asked)).toBe('welcome')
    const cookie = `__Host-coatbook-device=${token.value}`
    expect(await standing({ ...onNetwork, cookie })).toBe('welcome')
    const [device] = await readDevices(now())
    await revokeDevice(device?.id ?? '')
    expect(await standing(asked)).toBe('unknown')
  })

  test('stays as long as it comes, and ends when it stays away', async () => {
    const start = now()
    const token = await addSession('browser', 'passphrase', start)
    const at = (days: number) =>
      standing(
        { ...onNetwork, authorization: `Bearer ${token}` },
        instant(start + days * 1440 * minute),
      )
    expect(await at(13)).toBe('welcome')
    expect(await at(26)).toBe('welcome')
    expect(await at(41)).toBe('unknown')
  })
})

test('the secret of a calendar’s address opens the calendar and nothing else', async () => {
  const feed = await addSession('A calendar', 'calendar', now())
  const program = await addSession('script', 'program', now())
  expect(await isCalendarFeed(feed, now())).toBe(true)
  expect(await isCalendarFeed(program, now())).toBe(false)
  expect(await isCalendarFeed('', now())).toBe(false)
  const authorization = `Bearer ${feed}`
  expect(await standing({ ...onNetwork, authorization })).toBe('unknown')
  const cookie = `__Host-coatbook-device=${feed}`
  expect(await standing({ ...onNetwork, cookie })).toBe('unknown')
  const listed = await readDevices(now())
  const calendar = listed.find((one) => one.way === 'calendar')
  await revokeDevice(calendar?.id ?? '')
  expect(await isCalendarFeed(feed, now())).toBe(false)
})

describe('another site', () => {
  test.each([
    [
      'a foreign name for the desk',
      { host: 'evil.example:3000' },
      'foreign-host',
    ],
    [
      'a foreign name on the network',
      { ...onNetwork, host: 'evil.example' },
      'foreign-host',
    ],
    [
      'the desk’s name on the network',
      { ...onNetwork, host: 'localhost:3000' },
      'foreign-host',
    ],
    ['the network’s name at the desk', { host }, 'foreign-host'],
    [
      'our own server, for the page that a phone’s action leads on to',
      {
        ...onNetwork,
        host: 'localhost:3000',
        'x-forwarded-host': host,
        origin: `https://${host}`,
      },
      'unknown',
    ],
    [
      'our own server, for another site',
      {
        ...onNetwork,
        host: 'localhost:3000',
        'x-forwarded-host': host,
        origin: 'https://evil.example',
      },
      'foreign-site',
    ],
    [
      'our own server, by a foreign name',
      {
        ...onNetwork,
        host: 'localhost:3000',
        'x-forwarded-host': 'evil.example',
      },
      'foreign-host',
    ],
    [
      'its own origin',
      { ...atDesk, origin: 'http://evil.example' },
      'foreign-site',
    ],
    [
      'another port of this machine',
      {
        ...atDesk,
        origin: 'http://localhost:8080',
        'sec-fetch-site': 'same-site',
      },
      'foreign-site',
    ],
    ['a page in a sandbox', { ...atDesk, origin: 'null' }, 'foreign-site'],
    [
      'an origin that is none',
      { ...atDesk, origin: 'nonsense' },
      'foreign-site',
    ],
    [
      'no origin, from a link',
      { ...atDesk, 'sec-fetch-site': 'cross-site' },
      'welcome',
    ],
    [
      'no origin, with something to take',
      {
        ...atDesk,
        'sec-fetch-site': 'cross-site',
        'content-type': 'multipart/form-data',
      },
      'foreign-site',
    ],
    [
      'our own origin',
      { ...atDesk, origin: 'http://localhost:3000' },
      'welcome',
    ],
    [
      'a form of our own',
      { ...atDesk, origin: 'null', 'sec-fetch-site': 'same-origin' },
      'welcome',
    ],
  ] as const)('by %s', async (_, headers, expected) => {
    expect(await standing(headers)).toBe(expected)
  })
})

describe('attempts to get in', () => {
  test('are eight in a quarter of an hour, for each address', () => {
    const start = now()
    const tries = Array.from({ length: 10 }, () =>
      mayAttempt('passphrase', '10.0.0.9', start),
    )
    expect(tries.filter(Boolean)).toHaveLength(8)
    expect(mayAttempt('passphrase', '10.0.0.10', start)).toBe(true)
    expect(mayAttempt('pairing', '10.0.0.9', start)).toBe(true)
    const later = instant(start + 15 * minute)
    expect(mayAttempt('passphrase', '10.0.0.9', later)).toBe(true)
    forgetAttempts('passphrase', '10.0.0.9')
  })

  test('are forty of all addresses together', () => {
    const start = instant(now() + 60 * minute)
    const tries = Array.from({ length: 60 }, (_, index) =>
      mayAttempt('pairing', `10.0.1.${index}`, start),
    )
    expect(tries.filter(Boolean)).toHaveLength(40)
  })
})
