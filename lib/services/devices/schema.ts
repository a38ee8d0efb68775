import { z } from 'zod'

/** What a phone brings to be paired. */
export const newPairing = z.object({
  code: z.string('Type the code.').trim().min(1, 'Type the code.').max(40),
  name: z
    .string()
    .trim()
    .max(80)
    .transform((name) => (name === '' ? 'Phone' : name)),
})

/** What a passphrase may be at most; more is not even hashed. */
export const typedPassphrase = z
  .string('Type the passphrase.')
  .min(1, 'Type the passphrase.')
  .max(400)
