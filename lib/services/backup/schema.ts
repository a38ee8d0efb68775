import { z } from 'zod'

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)
const byteLength = z.int().min(0)

/** `manifest.json` of a backup. What it does not name is not in the backup. */
export const manifest = z.object({
  format: z.literal('coatbook-backup'),
  version: z.literal(1),
  madeAt: z.iso.datetime(),
  /** Of the program that made it. */
  program: z.string(),
  files: z.array(z.object({ name: z.string(), byteLength, sha256 })),
  /** Originals that the journal names and that could not be put in. */
  missing: z.array(
    z.object({ sha256, reason: z.enum(['missing', 'damaged']) }),
  ),
})

export type Manifest = z.output<typeof manifest>

const kept = (most: number) =>
  z.coerce
    .number('Give a whole number.')
    .int('Give a whole number.')
    .min(0, 'Give 0 or more.')
    .max(most, `Give at most ${most}.`)

/** Where nightly backups go and how long they are kept. */
export const newBackupSettings = z.object({
  /** Empty: none are made. */
  folder: z.string().trim().max(1000),
  keepDays: kept(366),
  keepWeeks: kept(520),
  keepMonths: kept(600),
})

export type NewBackupSettings = z.output<typeof newBackupSettings>
