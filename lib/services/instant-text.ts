import { z } from 'zod'
import { whyNotThen } from '#core/time/when-it-was'
import { instant } from '#core/units'
import { now } from '#services/clock'

/** An instant as ISO 8601 text with its offset, such as 2026-10-24T09:10:44.822Z; the value is an Instant. */
export const instantText = z.iso
  .datetime({
    offset: true,
    error:
      'Give the time as ISO 8601 with its offset, such as 2026-10-24T09:10:44Z.',
  })
  .transform((text) => instant(Date.parse(text)))

/** When work was done, in the form of {@link instantText}: neither long ago nor still to come. */
export const workTime = instantText.check((context) => {
  const message = whyNotThen(context.value, now())
  if (message !== undefined) {
    context.issues.push({ code: 'custom', input: context.value, message })
  }
})
