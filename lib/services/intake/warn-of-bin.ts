import 'server-only'
import { z } from 'zod'
import { latePhotoWarning } from '#core/bin/late-photo'
import type { MomentStyle } from '#core/time/moments'
import { type Instant, instant } from '#core/units'
import { readLeaving } from '#services/bin/bin'
import type { PlainSql } from '#services/database/one-connection'

/** What a photo is sent for and is in the bin, and since when. */
export type Binned = {
  readonly kind: 'job' | 'part'
  readonly names: readonly string[]
  /** When the first of it was removed. */
  readonly removedAt: Instant
}

const parts = z.array(
  z.object({
    piece: z.string(),
    surface: z.string(),
    pieceRemovedAt: z.number().nullable(),
    surfaceRemovedAt: z.number().nullable(),
  }),
)

/**
 * The pieces and surfaces among these, where all of them are in the bin: what a photo or a step shares with something in
 * use is not lost. Undefined otherwise, and for none at all.
 */
export function binnedParts(
  sql: PlainSql,
  surfaceIds: readonly string[],
): Binned | undefined {
  if (surfaceIds.length === 0) return undefined
  const rows = parts.parse(
    sql.rows(
      `SELECT "Piece"."name" AS "piece", "Surface"."name" AS "surface",
        "Piece"."removedAt" AS "pieceRemovedAt", "Surface"."removedAt" AS "surfaceRemovedAt"
      FROM "Surface" JOIN "Piece" ON "Piece"."id" = "Surface"."pieceId"
      WHERE "Surface"."id" IN (${surfaceIds.map(() => '?').join(', ')})
      ORDER BY "Piece"."position", "Surface"."position"`,
      ...surfaceIds,
    ),
  )
  const binned = rows.flatMap((row) => {
    const stamps = [row.pieceRemovedAt, row.surfaceRemovedAt].flatMap(
      (stamp) => stamp ?? [],
    )
    if (stamps.length === 0) return []
    // Under the names that they have in the bin: a piece that is there is told whole.
    const name =
      row.pieceRemovedAt === null ? `${row.piece}, ${row.surface}` : row.piece
    return { name, removedAt: Math.min(...stamps) }
  })
  if (binned.length === 0 || binned.length < rows.length) return undefined
  return {
    kind: 'part',
    names: [...new Set(binned.map(({ name }) => name))],
    removedAt: instant(Math.min(...binned.map(({ removedAt }) => removedAt))),
  }
}

/** What is said of it to whoever sends the photo: it is kept all the same. */
export async function warnOfBin(
  { removedAt, ...binned }: Binned,
  now: Instant,
  style: MomentStyle,
): Promise<string> {
  const leaving = await readLeaving()
  return latePhotoWarning({ ...binned, ...leaving(removedAt) }, now, style)
}
