import type { Journal, Photo } from '#core/journal/journal'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { describePhoto } from '#core/write-ups/describe-photo'
import { english } from '#core/write-ups/english'
import { lengthInUnits } from '#core/write-ups/fit-to-limit'
import { fact } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { listingPhotos } from '#core/write-ups/listing-photos'
import { plainText } from '#core/write-ups/plain-text'
import type {
  SentenceEdit,
  WriteUp,
  WriteUpName,
} from '#core/write-ups/write-up'

/**
 * The text alternative of every photo of a job, a line each: first those that go with the listing, in its order, then the
 * others as they were taken. Put in other words as any sentence is, and marked where what a photo shows has changed.
 */
export function writePhotoWords({
  journal,
  edits = [],
  language = english,
}: {
  readonly journal: Journal
  readonly edits?: readonly SentenceEdit[]
  readonly language?: Language
}): WriteUp {
  const listed = listingPhotos(journal)
  const others = journal.photos.filter((photo) => !listed.includes(photo))
  return assembleWriteUp({
    titles: [],
    paragraphs: [
      {
        layout: 'lines',
        sentences: [...listed, ...others].map((photo) => ({
          key: photoKey(photo.id),
          text: describePhoto(journal, photo, language),
          facts: [fact('photo', photo.id, 'role', photo.role)],
          importance: 0,
        })),
      },
    ],
    missing: [],
    edits,
    limit: Infinity,
    titleLimit: 0,
    size: lengthInUnits,
    titleInText: false,
  })
}

/** The words of each photo by its id, as the owner has them; empty where they were taken away, as of a picture for show. */
export function wordsOfPhotos({
  paragraphs,
  removed,
}: Pick<WriteUp, 'paragraphs' | 'removed'>): ReadonlyMap<string, string> {
  return new Map([
    ...paragraphs.flatMap(({ sentences }) =>
      sentences.map(({ key, text }) => [photoOf(key), text] as const),
    ),
    ...removed.map(({ key }) => [photoOf(key), ''] as const),
  ])
}

function photoKey(id: string): string {
  return `photo ${id}`
}

/** What the owner says of photos in other words, by their ids: of all that was put in other words in a job. */
export function ownWordsOfPhotos(
  edits: readonly (SentenceEdit & { readonly writeUp: WriteUpName })[],
): ReadonlyMap<string, string> {
  return new Map(
    edits
      .filter(({ writeUp }) => writeUp === 'photos')
      .map(({ key, words }) => [photoOf(key), plainText(words)]),
  )
}

/** The text alternative of a photo where it must have one: the owner's words for it, else those of the journal. */
export function alternativeOfPhoto(
  journal: Journal,
  photo: Photo,
  ownWords: ReadonlyMap<string, string>,
): string {
  // Words that were taken away are those of a picture for show, which this one is not.
  return ownWords.get(photo.id) || describePhoto(journal, photo)
}

/** The photo that a sentence of these is about. */
export function photoOf(key: string): string {
  return key.slice('photo '.length)
}
