'use client'

import {
  type Trouble,
  type Waiting,
  hasFailed,
  hasStep,
  isSetAside,
  waitsForWorkshop,
} from '#core/queue/queue'
import { readBytes } from './phone-store'
import {
  type Done,
  type QueueView,
  discard,
  sendAgain,
  sendWithoutStep,
} from './sender'

/**
 * What waits on this phone, thing by thing in the order in which it is sent, and what was sent from here. What could not be
 * sent says why, and can be tried again, saved or given up.
 */
export function QueueList({
  queue,
  label,
}: {
  readonly queue: QueueView
  readonly label: string
}) {
  const { waiting, done, copying } = queue
  if (waiting.length + done.length + copying === 0) return null
  const refusedOnes = waiting.filter((one) => one.trouble?.kind === 'refused')
  const failedOnes = waiting.filter(hasFailed)
  const photos = waiting.filter((one) => one.request.kind === 'photo')
  // Many that went as they should are not in the way of what comes next; one that has something to say stays in sight.
  const isPlain = (one: Done) => one.message === '' && !one.twice
  const plain = done.filter(isPlain)
  const folded = plain.length > mostInSight ? plain : []
  const told = folded.length === 0 ? done : done.filter((one) => !isPlain(one))
  const held = waiting.find(waitsForWorkshop)?.trouble
  return (
    <section aria-label={label} className="card p-4">
      <p className="font-bold">{headline(queue)}</p>
      {held !== undefined && (
        <p className="text-late mt-1 font-semibold">{heldWords(held)}</p>
      )}
      {queue.stays === false && waiting.length > 0 && (
        <p className="text-ink-soft mt-1">
          This browser may clear what waits here if its disk runs full or
          Coatbook is not opened for a week. Put Coatbook on the home screen to
          be safe.
        </p>
      )}
      {queue.inMemory && (
        <p className="text-wet mt-1 font-semibold">
          This phone has no room left for photos that wait. Some are held in
          this tab only: leave it open until they are sent.
        </p>
      )}
      {held?.kind === 'unreachable' && photos.length > 0 && (
        <details className="mt-1">
          <summary className="link flex min-h-12 cursor-pointer items-center">
            If the workshop is gone for good
          </summary>
          <p>
            Its address may have changed; what waits here goes to the old one
            alone. Photos can be saved to this device.
          </p>
          <button
            type="button"
            className="button mt-2"
            onClick={() => void saveAll(photos)}
          >
            {photos.length === 1
              ? 'Save the photo that waits'
              : `Save the ${photos.length} photos that wait`}
          </button>
        </details>
      )}
      {failedOnes.length > 1 && (
        <button
          type="button"
          className="button mt-2"
          onClick={() => void sendAgain()}
        >
          Send all {failedOnes.length} again
        </button>
      )}
      {refusedOnes.length > 1 && (
        <button
          type="button"
          className="button mt-2"
          onClick={() => {
            const what = `all ${refusedOnes.length} that were not taken`
            if (confirm(`Give up ${what}? ${whereElse(refusedOnes)}`)) {
              for (const { key } of refusedOnes) void discard(key)
            }
          }}
        >
          Discard the {refusedOnes.length} not taken
        </button>
      )}
      <ul className="divide-line mt-2 flex max-h-96 flex-col divide-y overflow-y-auto">
        {inOrder(waiting).map((one) => (
          <WaitingRow key={one.key} one={one} sent={queue.sent[one.key]} />
        ))}
        {told.map((one) => (
          <DoneRow key={one.key} one={one} />
        ))}
      </ul>
      {folded.length > 0 && (
        <details>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            Show the {folded.length} that are kept
          </summary>
          <ul className="divide-line flex max-h-96 flex-col divide-y overflow-y-auto">
            {folded.map((one) => (
              <DoneRow key={one.key} one={one} />
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

/** Why nothing goes out for now, and that it will. */
function heldWords({ kind, message }: Trouble): string {
  if (kind === 'turned-away')
    return `${message} All this is kept here and then goes out by itself.`
  if (kind === 'held-up')
    return `${message} What waits here is kept, and is sent again by itself.`
  return 'The workshop does not answer from here. All this is kept on this phone and goes out by itself once it does; nothing has to be done.'
}

/** What is lost with what is given up, as far as this page can know: photos may have been chosen from the phone's own. */
function whereElse(given: readonly Waiting[]): string {
  const isPhotos = given.every((one) => one.request.kind === 'photo')
  if (!isPhotos) return 'It is nowhere else.'
  return given.length === 1
    ? 'If it was chosen from this device, it stays there; else it is nowhere else.'
    : 'Those that were chosen from this device stay there; the others are nowhere else.'
}

/** So many photos that were sent stand in the list; more are folded away. */
const mostInSight = 3

/** What needs a hand stands first. */
function inOrder(waiting: readonly Waiting[]): readonly Waiting[] {
  return [
    ...waiting.filter(isSetAside),
    ...waiting.filter((one) => !isSetAside(one)),
  ]
}

function headline({ waiting, done, copying }: QueueView): string {
  if (copying > 0) return `Copying: ${copying} still to be read`
  const stuck = waiting.filter(isSetAside).length
  const open = waiting.length - stuck
  if (open > 0) return `${open} waiting, ${done.length} sent`
  if (stuck > 0) {
    return done.length === 0
      ? `${stuck} not sent`
      : `${stuck} not sent, ${done.length} sent`
  }
  return done.length === 1 ? 'Done: 1 sent' : `Done: all ${done.length} sent`
}

function WaitingRow({
  one,
  sent,
}: {
  readonly one: Waiting
  readonly sent: number | undefined
}) {
  const aside = isSetAside(one)
  return (
    <li className="flex flex-wrap items-center gap-x-3 gap-y-1 py-2">
      <span className="min-w-0 grow basis-28 truncate">{one.words}</span>
      {!aside && (
        <progress
          value={sent ?? 0}
          max={1}
          aria-label={`How much of ${one.words} has been sent`}
          // As browsers draw it, one of which nothing was sent looks full on a dark ground.
          className="border-line-strong bg-well [&::-webkit-progress-bar]:bg-well [&::-webkit-progress-value]:bg-press [&::-moz-progress-bar]:bg-press h-3 w-20 appearance-none overflow-hidden rounded-full border"
        />
      )}
      <span
        className={`text-small min-w-20 text-right font-bold ${aside ? 'text-wet' : 'text-ink-soft'}`}
      >
        {stateWords(one, sent)}
      </span>
      {aside && (
        <>
          <span className="basis-full">{one.trouble?.message}</span>
          <span className="flex flex-wrap gap-2">
            {one.trouble?.kind !== 'refused' && (
              <button
                type="button"
                className="button"
                onClick={() => void sendAgain(one.key)}
              >
                Send again
              </button>
            )}
            {hasStep(one) && (
              <button
                type="button"
                className="button"
                onClick={() => void sendWithoutStep(one.key)}
              >
                Send without its step
              </button>
            )}
            {one.request.kind === 'photo' && (
              <button
                type="button"
                className="button"
                onClick={() => void save(one)}
              >
                Save a copy
              </button>
            )}
            <button
              type="button"
              className="button"
              onClick={() => {
                if (confirm(`Give up ${one.words}? ${whereElse([one])}`)) {
                  void discard(one.key)
                }
              }}
            >
              Discard
            </button>
          </span>
        </>
      )}
    </li>
  )
}

function stateWords(one: Waiting, sent: number | undefined): string {
  if (isSetAside(one)) {
    return one.trouble?.kind === 'refused' ? 'Not taken' : 'Not sent'
  }
  if (sent !== undefined || one.claim !== undefined) return 'Sending'
  return one.trouble?.kind === 'failed' ? 'Trying again' : 'Waiting'
}

function DoneRow({ one }: { readonly one: Done }) {
  return (
    <li className="flex flex-wrap items-center gap-x-3 gap-y-1 py-2">
      <a
        href={`/jobs/${one.job}/${one.kind === 'photo' ? 'photos' : 'steps'}/${one.id}`}
        className="link flex min-h-11 min-w-0 grow basis-40 items-center"
      >
        <span className="truncate">{one.words}</span>
      </a>
      <span className="text-small text-ink-soft shrink-0 font-bold">
        {one.twice ? 'Here already' : 'Kept'}
      </span>
      {one.message !== '' && <span className="basis-full">{one.message}</span>}
    </li>
  )
}

/** One after the other: of several that are begun at once a browser may keep one alone. */
async function saveAll(photos: readonly Waiting[]): Promise<void> {
  for (const photo of photos) {
    await save(photo)
    await new Promise((resolve) => setTimeout(resolve, 400))
  }
}

/** Hands a photo that cannot be sent to the phone's own files. */
async function save({ key, request }: Waiting): Promise<void> {
  const bytes = await readBytes(key)
  if (bytes === undefined || request.kind !== 'photo') return
  const address = URL.createObjectURL(
    new Blob([bytes], { type: request.mediaType }),
  )
  const link = document.createElement('a')
  link.href = address
  link.download = request.name
  link.click()
  setTimeout(() => {
    URL.revokeObjectURL(address)
  }, 60_000)
}
