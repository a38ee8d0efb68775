import { z } from 'zod'
import type { BinnedPhoto } from '#services/bin/bin'
import type { BinnedPart } from '#services/bin/bin-parts'
import { binnedKinds } from '#services/bin/schema'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'

/** What is in the bin, as the interface gives it. */
export const binAnswer = z
  .object({
    things: z.array(
      z.object({
        kind: z.enum(binnedKinds),
        id: z.string(),
        job: z.object({ id: z.string(), title: z.string() }),
        name: z.string(),
        removedAt: instantAnswer,
        /** Absent while the bin keeps everything until it is brought back. */
        goesAt: instantAnswer
          .meta({
            description:
              'When it goes for good; absent while the bin keeps everything.',
          })
          .exactOptional(),
      }),
    ),
  })
  .meta({ id: 'Bin' })

/** Parts and photos in the form of {@link binAnswer}. */
export function binToAnswer(
  parts: readonly BinnedPart[],
  photos: readonly BinnedPhoto[],
): z.input<typeof binAnswer> {
  const things = [
    ...parts,
    ...photos.map(({ fileName, ...photo }) => ({
      ...photo,
      kind: 'photo' as const,
      name: fileName,
    })),
  ].toSorted((one, other) => other.removedAt - one.removedAt)
  return {
    things: things.map(({ kind, id, jobId, jobTitle, name, ...times }) => ({
      kind,
      id,
      job: { id: jobId, title: jobTitle },
      name,
      removedAt: instantToAnswer(times.removedAt),
      ...(times.goesAt === undefined
        ? {}
        : { goesAt: instantToAnswer(times.goesAt) }),
    })),
  }
}
