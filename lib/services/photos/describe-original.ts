import 'server-only'
import { readFile } from 'node:fs/promises'
import ExifReader from 'exifreader'
import { type Result, ok, refused } from '#core/result'
import { database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'

/** What an original says of its owner, for the owner alone. */
export type OriginalDescription = {
  readonly mediaType: string
  readonly byteLength: number
  /** Sentences, none of which gives away what it speaks of: no coordinates, no numbers, no names. */
  readonly holds: readonly string[]
}

/**
 * What an original holds besides its picture, in plain words, for the owner who thinks of passing it on. Everything that
 * leaves the program otherwise holds none of it.
 *
 * @returns refused when there is no such photo, or its original is missing
 */
export async function describeOriginal(
  photoId: string,
): Promise<Result<OriginalDescription>> {
  const db = await database()
  const row = await db.photo.findUnique({
    where: { id: photoId },
    select: {
      sha256: true,
      original: { select: { mediaType: true, byteLength: true } },
    },
  })
  if (row === null) {
    return refused({
      kind: 'not-found',
      detail: 'There is no such photo. It may have been removed.',
    })
  }
  const store = await openPhotoStore()
  if ((await store.stat(row.sha256)) === undefined) {
    return refused({
      kind: 'not-found',
      detail:
        'The photo itself is missing from the data folder. Bring it back from a backup.',
    })
  }
  const tags = await tagsOf(store.path(row.sha256))
  return ok({
    ...row.original,
    holds: tags === undefined ? [unread] : held(tags),
  })
}

const unread =
  'What this original holds besides its picture could not be read; take it that it may hold the place where it was taken.'

type Tags = Readonly<Record<string, unknown>>

async function tagsOf(file: string): Promise<Tags | undefined> {
  try {
    const bytes = await readFile(file)
    return Object.fromEntries(
      Object.entries(ExifReader.load(bytes, { expanded: true })),
    )
  } catch {
    // Not knowing is said to the owner.
    return undefined
  }
}

/** Groups of tags as the reader names them, and what any of them being there means. */
const meanings: readonly {
  readonly groups: readonly string[]
  readonly tags: RegExp
  readonly sentence: string
}[] = [
  {
    groups: ['gps', 'exif', 'xmp'],
    tags: /^(?:Latitude|Longitude|GPSLatitude|GPSLongitude|GPSDestLatitude|LocationCreated|Sub-?location|City|CountryName|Country|Location)$/,
    sentence: 'This original holds the place where it was taken.',
  },
  {
    groups: ['iptc'],
    tags: /^(?:City|Sub-?location|Country.*|Province\/State)$/,
    sentence: 'This original holds the place where it was taken.',
  },
  {
    groups: ['exif', 'xmp', 'iptc'],
    tags: /^(?:DateTimeOriginal|DateTimeDigitized|DateCreated|CreateDate|Date Created)$/,
    sentence: 'It holds the time at which it was taken.',
  },
  {
    groups: ['exif', 'xmp'],
    tags: /^(?:Make|Model|LensModel|HostComputer)$/,
    sentence: 'It names the camera or phone.',
  },
  {
    groups: ['exif', 'xmp', 'makerNotes'],
    tags: /Serial ?Number$|^ImageUniqueID$/i,
    sentence:
      'It holds a number by which one camera can be told from all others.',
  },
  {
    groups: ['exif', 'xmp', 'iptc'],
    tags: /^(?:Artist|CameraOwnerName|OwnerName|Copyright|XPAuthor|creator|rights|By-line|Credit|Copyright Notice)$/,
    sentence: 'It holds a name, of its owner or its author.',
  },
  {
    groups: ['exif', 'xmp', 'iptc', 'file', 'png', 'pngText'],
    tags: /^(?:UserComment|ImageDescription|XPComment|XPTitle|XPSubject|XPKeywords|description|title|subject|Caption\/Abstract|Headline|Keywords|Comment|Description)$/,
    sentence: 'It holds words: a title, a description or a comment.',
  },
  {
    groups: ['xmp'],
    tags: /^(?:Regions|RegionList|PersonInImage|People)$/,
    sentence: 'It says whose faces are in it.',
  },
  {
    groups: ['exif'],
    tags: /^MakerNote$/,
    sentence: "It holds data that only the camera's maker can read.",
  },
  {
    groups: ['Thumbnail'],
    tags: /^/,
    sentence:
      'It holds a small picture of itself, which may show what was cropped away since.',
  },
  {
    groups: ['mpf', 'xmp'],
    tags: /^(?:Images|MicroVideo|MotionPhoto|GCamera:MotionPhoto|hasExtendedXMP)$/,
    sentence: 'It holds more pictures, or a short video, behind the one shown.',
  },
]

function held(tags: Tags): readonly string[] {
  const sentences = meanings
    .filter(({ groups, tags: wanted }) =>
      groups.some((group) =>
        Object.entries(asObject(tags[group])).some(
          ([name, tag]) => wanted.test(name) && saysSomething(tag),
        ),
      ),
    )
    .map(({ sentence }) => sentence)
  return sentences.length === 0
    ? ['This original holds nothing besides its picture.']
    : [...new Set(sentences)]
}

/** What was blanked out says nothing any more: zeros, spaces. */
function saysSomething(tag: unknown): boolean {
  const told: unknown = Reflect.get(asObject(tag), 'description') ?? tag
  if (typeof told === 'number') return Math.abs(told) > 0
  return typeof told === 'string' ? /[^\s\0]/.test(told) : told !== undefined
}

function asObject(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
    ? Object.fromEntries(Object.entries(value))
    : {}
}
