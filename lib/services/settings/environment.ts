import path from 'node:path'
import { z } from 'zod'
import { isTimeZone } from '#core/time/zone'

const schema = z.object({
  COATBOOK_DATA: z.string().min(1).default('data'),
  COATBOOK_DEMO: z.enum(['on', 'off']).default('on'),
  COATBOOK_ZONE: z
    .string()
    .refine(isTimeZone, 'is no time zone name such as Europe/London')
    .optional(),
  COATBOOK_LAN_PORT: z.coerce.number().int().min(1).max(65_535).default(3443),
  PORT: z.coerce.number().int().min(1).max(65_535).default(3000),
})

/** What the environment says about this workshop. Paths are absolute. */
export type Environment = {
  readonly dataFolder: string
  readonly demo: boolean
  /** IANA zone for a new journal. */
  readonly zone: string
  readonly port: number
  /** Where `npm run start:lan` answers on the local network. */
  readonly lanPort: number
}

/**
 * The settings that come from outside, checked.
 *
 * @throws Error that names the variable and what is wrong with it
 */
export function readEnvironment(
  variables: Readonly<Record<string, string | undefined>> = process.env,
): Environment {
  const parsed = schema.safeParse(variables)
  if (!parsed.success) {
    const first = parsed.error.issues[0]
    throw new Error(
      `The setting ${first?.path.join('.') ?? ''} cannot be used: ${first?.message ?? ''}`,
    )
  }
  const machineZone = Intl.DateTimeFormat().resolvedOptions().timeZone
  return {
    dataFolder: path.resolve(parsed.data.COATBOOK_DATA),
    demo: parsed.data.COATBOOK_DEMO === 'on',
    zone: parsed.data.COATBOOK_ZONE ?? machineZone,
    port: parsed.data.PORT,
    lanPort: parsed.data.COATBOOK_LAN_PORT,
  }
}
