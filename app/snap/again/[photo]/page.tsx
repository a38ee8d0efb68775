import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { now } from '#services/clock'
import { readViewPhoto } from '#services/snap/read-views'
import { momentWords } from '#core/time/moments'
import { readWorkshop } from '#services/workshop/workshop'
import { PageHeading } from '../../../_components/page-heading'
import { photoSources } from '../../../_components/photo-sources'
import { requireLocalRequest } from '../../../_session'
import { TakeAgain } from './_components/take-again.client'

export const metadata: Metadata = { title: 'Take a view again' }

export default async function TakeAgainPage({
  params,
}: PageProps<'/snap/again/[photo]'>) {
  await requireLocalRequest()
  const { photo: id } = await params
  const [photo, workshop] = await Promise.all([
    readViewPhoto(id),
    readWorkshop(),
  ])
  if (photo === undefined) notFound()
  const view = photo.view ?? 'this view'
  return (
    <>
      <PageHeading
        title={`Take ${view} again`}
        lead={`Stand where you stood ${momentWords(photo.takenAt, now(), workshop)}, and hold the phone the same way: ${photo.jobTitle}.`}
      />
      <TakeAgain
        job={photo.jobId}
        view={photo.view}
        before={{
          ...photoSources(photo),
          alt: `Before: ${view}`,
          width: photo.width,
          height: photo.height,
        }}
      />
    </>
  )
}
