import { z } from 'zod'

const millimetresIn = { mm: 1, cm: 10, in: 25.4 } as const

const longest = 20_000
const tooLong = 'That is longer than any furniture.'
const length = z
  .number('Give a length as a number.')
  .gt(0, 'A length is more than nothing.')
  .max(longest, tooLong)

/** A length as it is kept: rounded, and as long as the longest in the largest unit. */
export const keptMillimetres = z
  .int('A length is kept in whole millimetres.')
  .min(0, 'A length cannot be less than nothing.')
  .max(longest * Math.max(...Object.values(millimetresIn)), tooLong)

/** Outside sizes at the widest; in millimetres unless a unit is named. */
export const dimensions = z
  .object({
    width: length.optional(),
    depth: length.optional(),
    height: length.optional(),
    unit: z.enum(['mm', 'cm', 'in'], 'Choose mm, cm or in.').default('mm'),
  })
  .transform(({ width, depth, height, unit }) => {
    const toMillimetres = (value: number | undefined) =>
      value === undefined ? null : Math.round(value * millimetresIn[unit])
    return {
      widthMillimetres: toMillimetres(width),
      depthMillimetres: toMillimetres(depth),
      heightMillimetres: toMillimetres(height),
    }
  })

/** The name of a surface. */
export const surfaceName = z
  .string('Name the surface.')
  .trim()
  .min(1, 'Name the surface.')
  .max(60, 'Keep the name of a surface to 60 characters.')

/** A new piece with its surfaces. */
export const newPiece = z.object({
  name: z
    .string('Name the piece.')
    .trim()
    .min(1, 'Name the piece.')
    .max(80, 'Keep the name of a piece to 80 characters.'),
  kind: z
    .string('Say what the piece is, such as sideboard.')
    .trim()
    .min(1, 'Say what the piece is, such as sideboard.')
    .max(60, 'Keep it to 60 characters.'),
  dimensions: dimensions.optional(),
  surfaces: z
    .array(surfaceName)
    .min(1, 'Give the piece at least one surface, such as body.')
    .max(40, 'That is more surfaces than one piece can have.')
    .refine(
      (names) =>
        new Set(names.map((name) => name.toLowerCase())).size === names.length,
      'Two surfaces of a piece have the same name.',
    ),
})

/** A new job with its pieces. */
export const newJob = z.object({
  title: z
    .string('Give the job a title.')
    .trim()
    .min(1, 'Give the job a title.')
    .max(120, 'Keep the title to 120 characters.'),
  pieces: z
    .array(newPiece, 'Give the job at least one piece.')
    .min(1, 'Give the job at least one piece.')
    .max(40, 'That is more pieces than one job can have.'),
})

export type NewJob = z.output<typeof newJob>
export type NewPiece = z.output<typeof newPiece>

const words = (limit: number) =>
  z
    .string()
    .trim()
    .max(limit, `Keep it to ${limit} characters.`)
    .transform((text) => (text === '' ? null : text))

/** What is told of a job besides its steps. */
export const jobFacts = z.object({
  title: newJob.shape.title,
  askingPriceMinor: z.int().min(0).max(1_000_000_000).nullable(),
  collection: words(300),
  client: words(120).default(null),
  brief: words(600).default(null),
  pieces: z.array(
    z.object({
      id: z.string(),
      name: newPiece.shape.name,
      kind: newPiece.shape.kind,
      dimensions,
      material: words(120),
      flaws: words(600),
      style: words(60).default(null),
      age: words(80).default(null),
      ageKnownBy: words(120).default(null),
      hardware: words(160).default(null),
      liner: z.enum(['removable', 'permanent']).nullable().default(null),
    }),
  ),
})

export type JobFacts = z.output<typeof jobFacts>
