import { goesWords } from '#core/bin/bin-times'
import type { MomentStyle } from '#core/time/moments'
import type { Instant } from '#core/units'

/** What a photo was sent for, though it is in the bin. */
export type LatePlace = {
  /** With its job a photo goes too; without the pieces or surfaces that it was sent for it stays in its job. */
  readonly kind: 'job' | 'part'
  /** The title of the job, or what it is of the job: `sideboard`, or `sideboard, top`. One at least. */
  readonly names: readonly string[]
  /** When the first of it goes for good; absent while the bin keeps everything. */
  readonly goesAt?: Instant
}

/** What is said to whoever sends a photo for something that is in the bin: until when it can be brought back, and where. */
export function latePhotoWarning(
  { kind, names, goesAt }: LatePlace,
  now: Instant,
  style: MomentStyle,
): string {
  const what =
    kind === 'job'
      ? `The job “${names.join(', ')}”`
      : `What this photo was sent for (${names.join('; ')})`
  const inBin = `${what} is in the bin and ${goesWords(goesAt, now, style)}`
  if (kind === 'part') {
    return `${inBin}${goesAt === undefined ? ',' : ': bring it back'} under Workshop. The photo itself stays in the job.`
  }
  return goesAt === undefined
    ? `${inBin}, under Workshop.`
    : `${inBin}, this photo with it: bring it back under Workshop.`
}
