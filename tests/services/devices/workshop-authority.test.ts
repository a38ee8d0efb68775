import { execFileSync, spawnSync } from 'node:child_process'
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
 */
function opensslVerifies(
  authority: string,
  cert: string,
  name: readonly [flag: '-verify_ip' | '-verify_hostname', value: string],
): string {
  const trusted = path.join(folder, 'trusted.pem')
  const shown = path.join(folder, 'shown.pem')
  writeFileSync(trusted, authority)
  writeFileSync(shown, cert)
  try {
    return execFileSync(
      'openssl',
      // prettier-ignore
      ['verify', '-x509_strict', '-purpose', 'sslserver', '-CAfile', trusted, ...name, shown],
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
