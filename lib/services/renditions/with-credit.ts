import 'server-only'
import type { Sharp } from 'sharp'
import { creditPacket } from '#core/sheets/credit-packet'

/**
 * A picture whose file will name its author, and nothing else: JPEG, PNG or WebP, moving or not.
 *
 * @param credit whom to name; empty: nobody
 */
export function withCredit(picture: Sharp, credit: string): Sharp {
  return credit === '' ? picture : picture.withXmp(creditPacket(credit))
}
