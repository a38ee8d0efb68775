'use client'

import { isSetAside } from '#core/queue/queue'
import { FileButton } from '../../../_queue/file-button.client'
import { QueueList } from '../../../_queue/queue-list.client'
import { queuePhotos } from '../../../_queue/sender'
import { useQueue } from '../../../_queue/use-queue.client'

/**
 * Puts photos of a job into this phone's queue and shows how it gets on. The bytes go as they are: nothing is scaled down or
 * re-coded on the phone.
 */
export function PhotoUploader({
  job,
  fields,
}: {
  readonly job: string
  /** Sent along with each photo, such as the step it was taken for. */
  readonly fields: Readonly<Record<string, string>>
}) {
  const all = useQueue()
  const waiting = all.waiting.filter((one) => one.job === job)
  const done = all.done.filter((one) => one.job === job)
  const stuck = waiting.filter(isSetAside).length
  const open = all.copying + waiting.length - stuck
  function add(files: readonly File[]) {
    void queuePhotos(files, { job, fields: Object.entries(fields) })
  }
  return (
    <div className="flex flex-col gap-4">
      <div className="flex flex-wrap gap-3">
        <FileButton capture main onFiles={add}>
          Take a photo
        </FileButton>
        <FileButton onFiles={add}>Choose photos</FileButton>
      </div>
      <p role="status" className="sr-only">
        {open > 0 || done.length + stuck === 0
          ? ''
          : stuck === 0
            ? 'All photos are kept.'
            : `${stuck} ${stuck === 1 ? 'photo was' : 'photos were'} not sent: see the list.`}
      </p>
      <QueueList queue={{ ...all, waiting, done }} label="Photos being sent" />
    </div>
  )
}
