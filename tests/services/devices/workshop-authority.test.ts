import { execFileSync, spawnSync } from 'node:child_process'
import { X509Certificate } from 'node:crypto'
import {
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import {
  isLocalName,
  makeServerCertificate,
  openAuthority,
} from '#services/devices/workshop-authority'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'
import { now } from '#services/clock'

const hasOpenssl = spawnSync('openssl', ['version']).status === 0

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-authority-'))
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

/**
 * What OpenSSL says of a server certificate under an authority: an implementation of RFC 5280 that is not ours.
 *
 * @param name checked against the certificate
 * @param at the moment that is asked about; without it the present
 */
function opensslVerifies(
  authority: string,
  cert: string,
  name: readonly [flag: '-verify_ip' | '-verify_hostname', value: string],
  at?: Instant,
): string {
  const trusted = path.join(folder, 'trusted.pem')
  const shown = path.join(folder, 'shown.pem')
  writeFileSync(trusted, authority)
  writeFileSync(shown, cert)
  try {
    return execFileSync(
      'openssl',
      // prettier-ignore
      ['verify', '-x509_strict', '-purpose', 'sslserver', '-CAfile', trusted, ...name, ...(at === undefined ? [] : ['-attime', String(at / 1000)]), shown],
      { encoding: 'utf8', stdio: 'pipe' },
    )
  } catch (error) {
    return String(error)
  }
}

describe('the certificate authority of a workshop', () => {
  test('is made once, and its files are for their owner alone', async () => {
    const home = path.join(folder, 'authority')
    const first = await openAuthority(home, now())
    const second = await openAuthority(home, now())
    expect(second).toEqual(first)
    for (const name of ['authority.key', 'authority.crt']) {
      expect(statSync(path.join(home, name)).mode & 0o777).toBe(0o600)
    }
    expect(statSync(home).mode & 0o777).toBe(0o700)
    expect(first.certificate).not.toContain('PRIVATE')
  })

  test('is not made anew when only its key is lost', async () => {
    const home = path.join(folder, 'authority')
    await openAuthority(home, now())
    rmSync(path.join(home, 'authority.key'))
    await expect(openAuthority(home, now())).rejects.toThrow(/key .*missing/)
  })

  test.skipIf(!hasOpenssl)(
    'signs for the local network what OpenSSL takes',
    async () => {
      const authority = await openAuthority(folder, now())
      const { cert } = await makeServerCertificate(
        authority,
        ['192.168.1.20', 'bench.local'],
        now(),
      )
      const verified = (
        flag: '-verify_ip' | '-verify_hostname',
        value: string,
      ) => opensslVerifies(authority.certificate, cert, [flag, value])
      expect(verified('-verify_ip', '192.168.1.20')).toMatch(/: OK$/m)
      expect(verified('-verify_hostname', 'bench.local')).toMatch(/: OK$/m)
      expect(verified('-verify_ip', '192.168.1.21')).toMatch(/mismatch/)
    },
  )

  test.skipIf(!hasOpenssl).each([
    ['-verify_hostname', 'bank.example'],
    ['-verify_ip', '203.0.113.7'],
  ] as const)(
    'could not speak for the rest of the world if its key were stolen (%s %s)',
    async (flag, name) => {
      const authority = await openAuthority(folder, now())
      const { cert } = await makeServerCertificate(authority, [name], now())
      expect(
        opensslVerifies(authority.certificate, cert, [flag, name]),
      ).toMatch(/permitted subtree violation/)
    },
  )

  test('keeps the key of a server on no disk', async () => {
    const authority = await openAuthority(folder, now())
    const { key } = await makeServerCertificate(
      authority,
      ['192.168.1.20'],
      now(),
    )
    expect(key).toContain('PRIVATE KEY')
    expect(key).not.toBe(
      readFileSync(path.join(folder, 'authority.key'), 'utf8'),
    )
  })
})

describe('the time of an authority', () => {
  const made = instant(Date.parse('2026-11-27T09:00:00Z'))
  const days = (count: number): Instant =>
    addMinutes(made, count * minutesPerDay)
  const second = 1000
  const last = days(3650)
  const validity = (pem: string) => {
    const { validFrom, validTo } = new X509Certificate(pem)
    return { from: Date.parse(validFrom), to: Date.parse(validTo) }
  }
  const filesOf = (home: string) =>
    ['authority.key', 'authority.crt'].map((name) =>
      readFileSync(path.join(home, name), 'utf8'),
    )

  test.each([
    // Half a day before it was made, by a clock that was set back.
    [-0.5, days(-1), days(396.5)],
    [0, days(-1), days(397)],
    [3000, days(2999), days(3397)],
    [3640, days(3639), last],
    [3650, days(3649), last],
  ])(
    'holds that of every server under it, %d days on',
    async (age, from, to) => {
      await openAuthority(folder, made)
      const authority = await openAuthority(folder, days(age))
      const { cert } = await makeServerCertificate(
        authority,
        ['192.168.1.20'],
        days(age),
      )
      expect(validity(authority.certificate)).toEqual({
        from: days(-1),
        to: last,
      })
      expect(validity(cert)).toEqual({ from, to })
    },
  )

  // The last second itself is of the time by RFC 5280 section 4.1.2.5; OpenSSL takes it for over.
  test.skipIf(!hasOpenssl).each([
    [instant(last - second), /: OK$/m, true],
    [instant(last + second), /certificate has expired/, false],
  ])(
    'is over for OpenSSL when it is for us: at %d',
    async (at, said, opens) => {
      const authority = await openAuthority(folder, made)
      const { cert } = await makeServerCertificate(
        authority,
        ['192.168.1.20', 'localhost'],
        days(3600),
      )
      const name = ['-verify_ip', '192.168.1.20'] as const
      expect(opensslVerifies(authority.certificate, cert, name, at)).toMatch(
        said,
      )
      const opened = await openAuthority(folder, at).then(
        () => true,
        () => false,
      )
      expect(opened).toBe(opens)
    },
  )

  test('that is over is told, with what to do, and nothing is made anew by itself', async () => {
    const before = await openAuthority(folder, made)
    const files = filesOf(folder)
    const opened = openAuthority(folder, instant(last + second))
    await expect(opened).rejects.toThrow(
      /clock says 24 November 2036.*ended on 24 November 2036.*set it.*remove the folder .*trust the new authority/,
    )
    await expect(opened).rejects.toThrow(folder)
    expect(filesOf(folder)).toEqual(files)
    // A clock that was wrong is put right: the phones trust what they trusted.
    expect(await openAuthority(folder, days(1))).toEqual(before)
  })

  test('that has not begun, since a clock was wrong, is told in the same way', async () => {
    // Made by a clock five years ahead.
    await openAuthority(folder, days(5 * 365))
    const files = filesOf(folder)
    const opened = openAuthority(folder, made)
    await expect(opened).rejects.toThrow(
      /clock says 27 November 2026.*not valid before 25 November 2031.*set it.*remove the folder/,
    )
    expect(filesOf(folder)).toEqual(files)
  })

  test('begins anew once its folder is removed, as its owner is told', async () => {
    const home = path.join(folder, 'authority')
    const before = await openAuthority(home, made)
    rmSync(home, { recursive: true })
    const after = await openAuthority(home, days(4000))
    expect(after.fingerprint).not.toBe(before.fingerprint)
    expect(validity(after.certificate).to).toBe(days(4000 + 3650))
  })

  test.each([-2, 3651])(
    'is asked of it again where a server is made: %d days on',
    async (age) => {
      const authority = await openAuthority(folder, made)
      await expect(
        makeServerCertificate(authority, ['192.168.1.20'], days(age)),
      ).rejects.toThrow(RangeError)
    },
  )
})

// RFC 1918 section 3 gives the first and last address of each private network.
test.each([
  ['10.0.0.0', true],
  ['10.255.255.255', true],
  ['11.0.0.0', false],
  ['172.16.0.0', true],
  ['172.31.255.255', true],
  ['172.32.0.0', false],
  ['192.168.0.0', true],
  ['192.168.255.255', true],
  ['192.169.0.0', false],
  ['203.0.113.7', false],
  ['bench.local', true],
  ['bench.local.example', false],
  ['::ffff:10.0.0.1', false],
])('%s is of a local network: %s', (name, expected) => {
  expect(isLocalName(name)).toBe(expected)
})
