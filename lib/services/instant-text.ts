import { z } from 'zod'
import { instant } from '#core/units'

/** An instant as ISO 8601 text with its offset, such as 2026-10-24T09:10:44.822Z; the value is an Instant. */
export const instantText = z.iso
  .datetime({
    offset: true,
    error:
      'Give the time as ISO 8601 with its offset, such as 2026-10-24T09:10:44Z.',
  })
  .transform((text) => instant(Date.parse(text)))
