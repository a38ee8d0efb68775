import { toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { database } from '#services/database/open-database'
import { instant } from '#core/units'

/** A photo of a job without its file, put straight into the database; gives its id. */
export async function keepPhotoRow(
  jobId: string,
  {
    takenAt = '2026-10-22T08:00:00Z',
    role = 'progress',
    stepId,
    surfaceIds = [],
  }: {
    readonly takenAt?: string
    readonly role?: string
    readonly stepId?: string
    readonly surfaceIds?: readonly string[]
  } = {},
): Promise<string> {
  const db = await database()
  const id = newId()
  const at = toDate(instant(Date.parse(takenAt)))
  await db.photo.create({
    data: {
      id,
      job: { connect: { id: jobId } },
      original: {
        create: {
          sha256: `${newId()}${newId()}`.replaceAll('-', ''),
          byteLength: 4_000_000,
          mediaType: 'image/jpeg',
          width: 4032,
          height: 3024,
          keptAt: at,
        },
      },
      fileName: `${id}.jpg`,
      arrivedAt: at,
      role,
      ...(stepId === undefined ? {} : { step: { connect: { id: stepId } } }),
      takenAt: at,
      takenEarliest: at,
      takenLatest: at,
      takenBasis: 'offset',
      surfaces: { create: surfaceIds.map((surfaceId) => ({ surfaceId })) },
    },
  })
  return id
}
