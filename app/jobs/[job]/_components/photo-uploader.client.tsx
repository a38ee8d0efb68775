'use client'

import { useRef, useState } from 'react'

type Sending = {
  readonly key: number
  readonly file: File
  readonly state:
    'waiting' | 'sending' | 'kept' | 'twice' | 'failed' | 'refused'
  /** 0 to 1. */
  readonly sent: number
  readonly message: string
}

/** Two at a time keep the line busy without starving the first. */
const atOnce = 2

/**
 * Sends photos one by one, so that each shows how far it is and a failed one can be sent again alone. The bytes go as
 * they are: nothing is scaled down or re-coded on the phone.
 */
export function PhotoUploader({
  job,
  fields,
  onKept,
}: {
  readonly job: string
  /** Sent along with each photo, such as the step it was taken for. */
  readonly fields: Readonly<Record<string, string>>
  /** Shows the page anew once photos have been kept. */
  readonly onKept: () => Promise<void>
}) {
  const [list, setList] = useState<readonly Sending[]>([])
  const queue = useRef<Sending[]>([])
  const running = useRef(0)
  const nextKey = useRef(0)
  const [announcement, setAnnouncement] = useState('')

  function change(key: number, values: Partial<Sending>) {
    setList((before) =>
      before.map((one) => (one.key === key ? { ...one, ...values } : one)),
    )
  }

  function add(files: Iterable<File>) {
    const added = Array.from(files, (file): Sending => ({
      key: nextKey.current++,
      file,
      state: 'waiting',
      sent: 0,
      message: '',
    }))
    if (added.length === 0) return
    setList((before) => [
      ...before.filter((one) => one.state !== 'kept' && one.state !== 'twice'),
      ...added,
    ])
    queue.current.push(...added)
    work()
  }

  function again(one: Sending) {
    change(one.key, { state: 'waiting', sent: 0, message: '' })
    queue.current.push(one)
    work()
  }

  function work() {
    while (running.current < atOnce) {
      const one = queue.current.shift()
      if (one === undefined) return
      running.current += 1
      change(one.key, { state: 'sending' })
      void send(job, one.file, fields, (sent) => {
        change(one.key, { sent })
      }).then(async (result) => {
        change(one.key, result)
        running.current -= 1
        work()
        if (queue.current.length === 0 && running.current === 0) {
          setAnnouncement('All photos have been dealt with.')
          await onKept()
        }
      })
    }
  }

  const open = list.filter(
    (one) => one.state === 'waiting' || one.state === 'sending',
  ).length
  return (
    <div className="flex flex-col gap-4">
      <div className="flex flex-wrap gap-3">
        <FileButton capture main onFiles={add}>
          Take a photo
        </FileButton>
        <FileButton onFiles={add}>Choose photos</FileButton>
      </div>
      <p role="status" className="sr-only">
        {announcement}
      </p>
      {list.length > 0 && (
        <section aria-label="Photos being sent" className="card p-4">
          <p className="mb-2 font-bold">
            {open > 0
              ? `Sending: ${list.length - open} of ${list.length} done`
              : `Done: ${list.length} ${list.length === 1 ? 'photo' : 'photos'}`}
          </p>
          <ul className="divide-line flex max-h-96 flex-col divide-y overflow-y-auto">
            {list.map((one) => (
              <li
                key={one.key}
                className="flex flex-wrap items-center gap-x-3 gap-y-1 py-2"
              >
                <span className="min-w-0 grow basis-40 truncate">
                  {one.file.name}
                </span>
                <progress
                  value={
                    one.state === 'kept' || one.state === 'twice' ? 1 : one.sent
                  }
                  max={1}
                  aria-label={`How much of ${one.file.name} has been sent`}
                  className="h-3 w-28 accent-(--press)"
                />
                <span
                  className={`w-28 text-small font-bold ${one.state === 'failed' || one.state === 'refused' ? 'text-wet' : 'text-ink-soft'}`}
                >
                  {stateWords[one.state]}
                </span>
                {one.state === 'failed' && (
                  <button
                    type="button"
                    className="button"
                    onClick={() => {
                      again(one)
                    }}
                  >
                    Send again
                  </button>
                )}
                {one.message !== '' && (
                  <span className="basis-full">{one.message}</span>
                )}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  )
}

const stateWords: Record<Sending['state'], string> = {
  waiting: 'Waiting',
  sending: 'Sending',
  kept: 'Kept',
  twice: 'Here already',
  failed: 'Not sent',
  refused: 'Not taken',
}

function FileButton({
  children,
  onFiles,
  capture = false,
  main = false,
}: {
  readonly children: string
  readonly onFiles: (files: Iterable<File>) => void
  readonly capture?: boolean
  readonly main?: boolean
}) {
  return (
    <label
      className={`button ${main ? 'button-main' : ''} min-h-14 grow has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-(--press) sm:grow-0`}
    >
      {children}
      <input
        type="file"
        accept="image/*,.heic,.heif,.avif"
        className="sr-only"
        {...(capture
          ? { capture: 'environment' as const }
          : { multiple: true })}
        onChange={(event) => {
          onFiles(Array.from(event.target.files ?? []))
          // The same file can be chosen again.
          event.target.value = ''
        }}
      />
    </label>
  )
}

/** Sends one file. XMLHttpRequest, because fetch does not tell how much of a body has gone out. */
function send(
  job: string,
  file: File,
  fields: Readonly<Record<string, string>>,
  onProgress: (sent: number) => void,
): Promise<Pick<Sending, 'state' | 'message' | 'sent'>> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    const body = new FormData()
    for (const [name, value] of Object.entries(fields)) body.append(name, value)
    body.append('modified', String(file.lastModified))
    body.append('file', file)
    request.upload.addEventListener('progress', (event) => {
      if (event.lengthComputable) onProgress(event.loaded / event.total)
    })
    request.addEventListener('load', () => {
      resolve(read(request))
    })
    for (const trouble of ['error', 'abort', 'timeout']) {
      request.addEventListener(trouble, () => {
        resolve({
          state: 'failed',
          sent: 0,
          message:
            'The connection broke. The photo is still on this device; send it again.',
        })
      })
    }
    request.open('POST', `/api/jobs/${job}/photos`)
    request.send(body)
  })
}

function read(
  request: XMLHttpRequest,
): Pick<Sending, 'state' | 'message' | 'sent'> {
  const answer = parse(request.responseText)
  const reason = answer.rejected?.[0]?.reason ?? answer.detail ?? ''
  if (request.status === 201) {
    const photo = answer.photos?.[0]
    if (photo === undefined)
      return { state: 'refused', sent: 1, message: reason }
    return {
      state: photo.duplicateOf === undefined ? 'kept' : 'twice',
      sent: 1,
      message: (photo.warnings ?? []).join(' '),
    }
  }
  if (request.status >= 500) {
    return {
      state: 'failed',
      sent: 0,
      message:
        reason === ''
          ? 'The workshop could not keep it. Send it again.'
          : reason,
    }
  }
  return {
    state: 'refused',
    sent: 1,
    message: reason === '' ? 'The workshop does not take this file.' : reason,
  }
}

type Answer = {
  readonly detail?: string
  readonly rejected?: readonly { readonly reason: string }[]
  readonly photos?: readonly {
    readonly duplicateOf?: string
    readonly warnings?: readonly string[]
  }[]
}

function parse(text: string): Answer {
  try {
    return JSON.parse(text) as Answer
  } catch {
    // Not from us: a proxy's page, or a connection cut in the answer.
    return {}
  }
}
