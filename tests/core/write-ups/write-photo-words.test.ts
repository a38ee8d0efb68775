import { expect, test } from 'vitest'
import { describePhoto } from '#core/write-ups/describe-photo'
import { listingJsonLd } from '#core/write-ups/listing-json-ld'
import { listingPhotos } from '#core/write-ups/listing-photos'
import { writeListing } from '#core/write-ups/write-listing'
import {
  alternativeOfPhoto,
  wordsOfPhotos,
  writePhotoWords,
} from '#core/write-ups/write-photo-words'
import { goldenJobs } from './golden-jobs.ts'
import { alderYard, journal, photo, piece } from './jobs.ts'

const chest = piece('chest', 'chest', ['top'], { flaws: 'a scratch' })
const job = journal('One', [chest], [], [])
const shown = {
  ...job,
  photos: [
    photo('before', 'before', ['chest-top']),
    photo('flaw', 'after', ['chest-top'], { flaw: 'a scratch' }),
    photo('front', 'after', ['chest-top'], { view: 'front' }),
  ],
}

test.each(Object.entries(goldenJobs))(
  'every photo of %s has words of its own, the listing’s first',
  (_, { job: journal }) => {
    const words = wordsOfPhotos(writePhotoWords({ journal }))
    expect([...words.keys()].toSorted()).toEqual(
      journal.photos.map(({ id }) => id).toSorted(),
    )
    expect([...words.keys()].slice(0, listingPhotos(journal).length)).toEqual(
      listingPhotos(journal).map(({ id }) => id),
    )
    for (const text of words.values()) expect(text).not.toBe('')
  },
)

test('the owner’s words for a photo stay, are marked when what it shows has changed, and go out with the listing', () => {
  const front = shown.photos[2]
  if (front === undefined) throw new Error('no photo')
  const edit = {
    key: 'photo front',
    words: 'The chest by the window',
    madeOn: {
      text: describePhoto(shown, front),
      facts: [
        {
          about: { kind: 'photo', id: 'front' },
          fact: 'role',
          value: 'after',
        },
      ],
    },
  } as const
  const written = writePhotoWords({ journal: shown, edits: [edit] })
  expect(written.text.split('\n')[0]).toBe('The chest by the window')
  const [sentence] = written.paragraphs[0]?.sentences ?? []
  expect(sentence?.edit).toMatchObject({ changed: false })

  const turned = {
    ...shown,
    photos: shown.photos.map((one) =>
      one.id === 'front' ? { ...one, view: 'back' } : one,
    ),
  }
  const later = writePhotoWords({ journal: turned, edits: [edit] })
  const after = later.paragraphs[0]?.sentences.find(
    ({ key }) => key === 'photo front',
  )
  expect(after?.text).toBe('The chest by the window')
  expect(after?.edit?.changed).toBe(true)

  const data = listingJsonLd({
    journal: shown,
    settings: alderYard,
    listing: writeListing({
      journal: shown,
      settings: alderYard,
      now: job.job.createdAt,
    }),
    photoAddress: (id) => id,
    photoWords: wordsOfPhotos(written),
  })
  expect(data).toMatchObject({
    image: [
      { contentUrl: 'front', caption: 'The chest by the window' },
      { contentUrl: 'flaw' },
    ],
  })
})

test('a photo that the owner leaves without words says nothing', () => {
  const words = wordsOfPhotos(
    writePhotoWords({
      journal: shown,
      edits: [
        { key: 'photo flaw', words: '', madeOn: { text: '', facts: [] } },
      ],
    }),
  )
  expect(words.get('flaw')).toBe('')
})

test('where a photo must have words they are the owner’s, and the journal’s where there are none or they were taken away', () => {
  const front = shown.photos[2]
  if (front === undefined) throw new Error('no photo')
  const written = describePhoto(shown, front)
  expect(written).not.toBe('')
  for (const [own, said] of [
    [new Map([['front', 'By the window']]), 'By the window'],
    [new Map([['front', '']]), written],
    [new Map([['flaw', 'Another']]), written],
  ] as const) {
    expect(alternativeOfPhoto(shown, front, own)).toBe(said)
  }
})
