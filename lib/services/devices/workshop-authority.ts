import 'reflect-metadata'
import { X509Certificate as NodeCertificate } from 'node:crypto'
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  writeSync,
} from 'node:fs'
import { BlockList, isIP } from 'node:net'
import path from 'node:path'
import { AsnConvert } from '@peculiar/asn1-schema'
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  NameConstraints,
  id_ce_nameConstraints,
} from '@peculiar/asn1-x509'
import {
  BasicConstraintsExtension,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  Extension,
  KeyUsageFlags,
  KeyUsagesExtension,
  PemConverter,
  SubjectAlternativeNameExtension,
  SubjectKeyIdentifierExtension,
  AuthorityKeyIdentifierExtension,
  X509Certificate,
  X509CertificateGenerator,
} from '@peculiar/x509'
import { dayInFull } from '#core/time/moments'
import { type Instant, instant } from '#core/units'

const algorithm = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' }
const day = 86_400_000
const authorityDays = 3650
/**
 * What phones take at most from an authority that their owner added is 825 days.
 * Source: Apple support article 103769, requirements for trusted certificates.
 */
const serverDays = 397
/** Clocks of phones run behind. */
const earlierMilliseconds = day

/** The workshop's own certificate authority: what a phone is told to trust, and the key that never leaves the folder. */
export type Authority = {
  readonly certificate: string
  readonly key: string
  /** SHA-256 of the certificate, in pairs of hexadecimal digits. */
  readonly fingerprint: string
}

/** What a server shows: a key and the certificates from its own up to the authority's, in PEM. */
export type ServerCertificate = { readonly key: string; readonly cert: string }

/**
 * The workshop's certificate authority, made on first use. Its key lies in the data folder for its owner's eyes alone.
 *
 * Whoever stole the key could speak for this workshop, but for nothing else: the certificate is good only for names and
 * addresses of a local network.
 *
 * @param folder where it is kept
 * @throws Error where one half of it is missing, and where it has ended or is not valid yet by this clock: a new one would
 * have to be trusted by every phone anew, and the clock may be what is wrong, so that is for its owner to do
 */
export async function openAuthority(
  folder: string,
  now: Instant,
): Promise<Authority> {
  const certificateFile = path.join(folder, 'authority.crt')
  const keyFile = path.join(folder, 'authority.key')
  if (!existsSync(certificateFile)) {
    mkdirSync(folder, { recursive: true, mode: 0o700 })
    const made = await makeAuthority(now)
    // The certificate is written last: without it the next start begins anew.
    keepForOwner(keyFile, made.key)
    keepForOwner(certificateFile, made.certificate)
  }
  if (!existsSync(keyFile)) {
    throw new Error(
      `The key of the workshop's certificate authority is missing: ${keyFile}. Bring it back from a copy of the data folder, or remove the folder ${folder} and let every phone trust the new one.`,
    )
  }
  for (const file of [keyFile, certificateFile]) chmodSync(file, 0o600)
  const certificate = readFileSync(certificateFile, 'utf8')
  const untimely = whyUntimely(certificate, now)
  if (untimely !== undefined) {
    throw new Error(
      `${untimely} No phone takes what it signs. If the clock is wrong, set it and start again. If it is right, remove the folder ${folder}, start again, and have every phone trust the new authority as it did the first one (see “On the phone” in the README); phones stay paired. Until then npm start serves this machine alone.`,
    )
  }
  return {
    certificate,
    key: readFileSync(keyFile, 'utf8'),
    fingerprint: new NodeCertificate(certificate).fingerprint256,
  }
}

/**
 * A certificate and a key for a server by these names, signed by the authority. It is made anew at each start, so its key
 * is on no disk. It is valid for no moment at which the authority is not.
 *
 * @param names host names and addresses, at least one
 * @throws RangeError when the authority is not valid now, which {@link openAuthority} has made sure of
 */
export async function makeServerCertificate(
  authority: Authority,
  names: readonly string[],
  now: Instant,
): Promise<ServerCertificate> {
  const untimely = whyUntimely(authority.certificate, now)
  if (untimely !== undefined) {
    throw new RangeError(`makeServerCertificate: ${untimely}`)
  }
  const issuer = new X509Certificate(authority.certificate)
  const signingKey = await crypto.subtle.importKey(
    'pkcs8',
    PemConverter.decodeFirst(authority.key),
    algorithm,
    false,
    ['sign'],
  )
  const keys = await newKeys()
  const certificate = await X509CertificateGenerator.create({
    subject: `CN=${names[0] ?? ''}`,
    issuer: issuer.subjectName,
    ...within(issuer, validity(now, serverDays)),
    publicKey: keys.publicKey,
    signingKey,
    signingAlgorithm: algorithm,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension(
        names.map((name) => ({
          type: isIP(name) === 0 ? ('dns' as const) : ('ip' as const),
          value: name,
        })),
      ),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
      await AuthorityKeyIdentifierExtension.create(issuer),
    ],
  })
  return {
    key: await toPem(keys.privateKey),
    cert: `${certificate.toString('pem')}\n${authority.certificate}`,
  }
}

async function makeAuthority(
  now: Instant,
): Promise<{ readonly key: string; readonly certificate: string }> {
  const keys = await newKeys()
  const certificate = await X509CertificateGenerator.createSelfSigned({
    name: 'CN=Coatbook workshop',
    ...validity(now, authorityDays),
    keys,
    signingAlgorithm: algorithm,
    extensions: [
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign, true),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
      localNamesOnly(),
    ],
  })
  return {
    key: await toPem(keys.privateKey),
    certificate: certificate.toString('pem'),
  }
}

/**
 * The addresses of a local network.
 * Source: RFC 1918 section 3 (private), RFC 3927 section 2.1 (link-local), RFC 1122 section 3.2.1.3 (loopback).
 */
const localNetworks = [
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
  ['127.0.0.0', 8],
] as const
const localAddresses = new BlockList()
for (const [network, bits] of localNetworks) {
  localAddresses.addSubnet(network, bits)
}
/** Source: RFC 6761 section 6.3 (localhost), RFC 6762 section 3 (local), RFC 8375 section 3 (home.arpa). */
const localNames = ['localhost', 'local', 'home.arpa'] as const

/** Whether this is a name or an IPv4 address of a local network: only for these the authority is good. */
export function isLocalName(name: string): boolean {
  if (isIP(name) === 4) return localAddresses.check(name)
  return (
    isIP(name) === 0 &&
    localNames.some((local) => name === local || name.endsWith(`.${local}`))
  )
}

/** Source: RFC 5280 section 4.2.1.10. */
function localNamesOnly(): Extension {
  const bases = [
    ...localNames.map((dNSName) => ({ dNSName })),
    ...localNetworks.map(([network, bits]) => ({
      iPAddress: `${network}/${bits}`,
    })),
  ]
  const constraints = new NameConstraints({
    permittedSubtrees: new GeneralSubtrees(
      bases.map((base) => new GeneralSubtree({ base: new GeneralName(base) })),
    ),
  })
  return new Extension(
    id_ce_nameConstraints,
    true,
    AsnConvert.serialize(constraints),
  )
}

/** When a certificate is valid: from its first moment to its last, inclusive. Source: RFC 5280 section 4.1.2.5. */
type Validity = { readonly notBefore: Date; readonly notAfter: Date }

function validity(now: Instant, days: number): Validity {
  return {
    notBefore: new Date(now - earlierMilliseconds),
    notAfter: new Date(now + days * day),
  }
}

/** What of a time lies within another one. */
function within(outer: Validity, { notBefore, notAfter }: Validity): Validity {
  return {
    notBefore: outer.notBefore > notBefore ? outer.notBefore : notBefore,
    notAfter: outer.notAfter < notAfter ? outer.notAfter : notAfter,
  }
}

/**
 * Why an authority is of no use now, as a sentence; undefined where it is valid.
 * Source: RFC 5280 section 6.1.3 (a)(2): every certificate of a path has to be valid at that moment.
 */
function whyUntimely(certificate: string, now: Instant): string | undefined {
  const { notBefore, notAfter } = new X509Certificate(certificate)
  const days = (at: number) =>
    dayInFull(instant(at), { zone: 'UTC', units: 'metric' })
  const clock = `This computer's clock says ${days(now)}, and the workshop's certificate authority`
  if (now < notBefore.getTime()) {
    return `${clock} is not valid before ${days(notBefore.getTime())}.`
  }
  if (now > notAfter.getTime()) {
    return `${clock} ended on ${days(notAfter.getTime())}.`
  }
  return undefined
}

function newKeys(): Promise<CryptoKeyPair> {
  return crypto.subtle.generateKey(algorithm, true, ['sign', 'verify'])
}

async function toPem(key: CryptoKey): Promise<string> {
  const bytes = await crypto.subtle.exportKey('pkcs8', key)
  return `${PemConverter.encode(bytes, 'PRIVATE KEY')}\n`
}

/** Writes a file that only its owner reads, whole or not at all. */
function keepForOwner(file: string, text: string): void {
  const aside = `${file}.new`
  const handle = openSync(aside, 'w', 0o600)
  try {
    writeSync(handle, text)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  renameSync(aside, file)
}
