import 'server-only'
import path from 'node:path'
import { Worker } from 'node:worker_threads'
import { maximumPixels } from '#services/renditions/open-picture'
import { tiffPixelsAt, writeTiffHead } from '#services/renditions/tiff-head'

/** How much a decoding may take before it is given up. */
export type HeicLimits = {
  readonly milliseconds: number
  /** Of the decoder's own memory: 50 megapixels with 10 bits take some 500 MB. */
  readonly bytes: number
}

/** The thread ended without a word: that tells nothing about the picture. */
export class DecoderEnded extends Error {
  constructor() {
    super('the decoder ended without an answer')
  }
}

/** What the thread is given. */
type HeicTask = {
  readonly file: string
  readonly maximumPixels: number
  /** How far the decoder's own memory may grow. */
  readonly maximumBytes: number
  /** Room to leave before the pixels. */
  readonly headBytes: number
}

/** What it answers: its pixels, row after row in red, green and blue, behind the room; or why there are none. */
type HeicAnswer =
  | {
      readonly width: number
      readonly height: number
      readonly bytes: Uint8Array<ArrayBuffer>
    }
  | { readonly failure: string }

const usualLimits: HeicLimits = {
  milliseconds: 60_000,
  bytes: 768 * 1024 * 1024,
}

/**
 * The primary picture of a HEIC file, upright as its container says, as an uncompressed TIFF in the colours of its
 * profile. It is decoded in a thread of its own, which is ended afterwards, and after a minute in any case.
 *
 * Only the decoder for HEVC is missing from the image library; everything else about the file is read by it.
 *
 * @param profile the file's ICC profile
 * @throws Error when the picture is damaged or incomplete, or a limit was reached; `DecoderEnded` when the thread ended
 *   without a word, twice
 */
export async function decodeHeic(
  file: string,
  profile: Uint8Array | undefined,
  limits: HeicLimits = usualLimits,
): Promise<Buffer> {
  try {
    return await decodeOnce(file, profile, limits)
  } catch (error) {
    if (!(error instanceof DecoderEnded)) throw error
    return decodeOnce(file, profile, limits)
  }
}

async function decodeOnce(
  file: string,
  profile: Uint8Array | undefined,
  limits: HeicLimits,
): Promise<Buffer> {
  const task: HeicTask = {
    file,
    maximumPixels,
    maximumBytes: limits.bytes,
    headBytes: tiffPixelsAt(profile),
  }
  const worker = new Worker(
    path.join(
      /* turbopackIgnore: true */ process.cwd(),
      'lib',
      'services',
      'renditions',
      'heic-worker.mjs',
    ),
    {
      workerData: task,
      // None of this program's own: a loader that it was started with has no work there.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: 128 },
    },
  )
  try {
    const answer = await answerOf(worker, limits.milliseconds)
    if ('failure' in answer) throw new Error(answer.failure)
    const { width, height, bytes } = answer
    writeTiffHead(bytes, { width, height, profile })
    return Buffer.from(bytes.buffer)
  } finally {
    await worker.terminate()
  }
}

function answerOf(worker: Worker, milliseconds: number): Promise<HeicAnswer> {
  return new Promise((resolve, reject) => {
    const patience = setTimeout(() => {
      reject(new Error('the picture took too long to decode'))
    }, milliseconds)
    worker.once('message', (answer: HeicAnswer) => {
      clearTimeout(patience)
      resolve(answer)
    })
    worker.once('error', (error) => {
      clearTimeout(patience)
      reject(error)
    })
    worker.once('exit', () => {
      clearTimeout(patience)
      reject(new DecoderEnded())
    })
  })
}
