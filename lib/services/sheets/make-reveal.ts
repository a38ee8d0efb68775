import 'server-only'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { type Result, ok, refused } from '#core/result'
import { type Rectangle, largestCrop } from '#core/sheets/largest-crop'
import { type SheetShape, sheetShapes } from '#core/sheets/plan-sheet'
import { revealFrames } from '#core/sheets/reveal-frames'
import { sheetFileName } from '#core/sheets/sheet-file-name'
import { openPicture } from '#services/renditions/open-picture'
import { inTurn } from '#services/renditions/renditions'
import { withCredit } from '#services/renditions/with-credit'
import { drawSheet } from '#services/sheets/draw-sheet'
import { hasFfmpeg } from '#services/sheets/has-ffmpeg'
import { laySheet } from '#services/sheets/lay-sheet'
import {
  type ReadSheet,
  type Sheet,
  type SheetChoice,
  readSheet,
} from '#services/sheets/make-sheet'
import {
  type SheetPicture,
  pictureCutter,
} from '#services/sheets/sheet-picture'
import { pictureTypesetter } from '#services/sheets/text-picture'

/** The formats that a reveal is made in, with their media types. */
export const revealFormats = { webp: 'image/webp', mp4: 'video/mp4' } as const
export type RevealFormat = keyof typeof revealFormats

/** Of the sheet's pixels: a moving picture of all of them would be too large to send. */
const scale = 2 / 3
const framesPerSecond = 25

/**
 * Makes the after appear over the before from left to right, in the design of a sheet: as an animated WebP, or as an MP4
 * (H.264) where ffmpeg is found.
 *
 * @returns refused as `makeSheet` is, and for an MP4 on a machine without ffmpeg
 */
export async function makeReveal(
  jobId: string,
  shape: SheetShape,
  format: RevealFormat,
  choice: SheetChoice = {},
): Promise<Result<Sheet>> {
  if (format === 'mp4' && !(await hasFfmpeg())) {
    return refused({
      kind: 'conflict',
      detail:
        'An MP4 needs ffmpeg, which is not found on this machine. Take the animated WebP, or install ffmpeg.',
    })
  }
  const read = await readSheet(jobId, { ...choice, show: 'pair' })
  if (!read.ok) return read
  const { content, look, credit } = read.value
  const bytes = await inTurn(async () => {
    const [before, after] = await content.open(look.light)
    if (before === undefined || after === undefined) {
      throw new RangeError('makeReveal: expected a before and an after')
    }
    // Both at one size, so that the line moves over one picture.
    const ends = await Promise.all([
      drawnEnd(shape, read.value, before, before.size),
      drawnEnd(shape, read.value, after, before.size),
    ])
    return format === 'webp' ? animatedWebp(ends, credit) : mp4(ends, credit)
  })
  return ok({
    bytes,
    mediaType: revealFormats[format],
    fileName: sheetFileName({
      title: content.journal.job.title,
      shape: `${shape}-reveal`,
      design: look.design,
      format,
    }),
  })
}

/** The sheet with one of the two pictures, in RGB, and where the picture is. */
type End = {
  readonly data: Buffer
  readonly width: number
  readonly height: number
  readonly place: Rectangle
}

async function drawnEnd(
  shape: SheetShape,
  { look, words, mark }: ReadSheet,
  picture: SheetPicture,
  size: SheetPicture['size'],
): Promise<End> {
  const typesetter = pictureTypesetter()
  const cutter = pictureCutter([picture], '#ffffff')
  const laid = await laySheet({
    shape,
    look,
    pictures: { kind: 'story', pictures: [size] },
    captions: [picture.caption],
    captionsStay: true,
    words,
    ...(mark?.picture !== undefined && { mark: mark.picture }),
    typesetter,
    grey: cutter.grey,
  })
  const [planned] = laid.pictures
  if (planned === undefined) throw new RangeError('drawnEnd: expected a place')
  const whole = await drawSheet(
    {
      ...laid,
      // Photos that are not laid on each other differ in size; each is then cut by itself.
      pictures: [{ ...planned, crop: cropFor(picture.size, planned.place) }],
    },
    {
      cutter,
      typesetter,
      ...(mark?.picture !== undefined && { mark: mark.picture.bytes }),
    },
  )
  const target = {
    width: even(sheetShapes[shape].width * scale),
    height: even(sheetShapes[shape].height * scale),
  }
  const flat = await whole.raw().toBuffer({ resolveWithObject: true })
  const { data } = await openPicture(flat.data, {
    raw: {
      width: flat.info.width,
      height: flat.info.height,
      channels: flat.info.channels,
    },
  })
    .resize({ ...target, fit: 'fill' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { left, top, width, height } = planned.place
  return {
    data,
    ...target,
    place: {
      left: Math.round(left * scale),
      top: Math.round(top * scale),
      width: Math.round(width * scale),
      height: Math.round(height * scale),
    },
  }
}

function cropFor(size: SheetPicture['size'], place: Rectangle): Rectangle {
  return largestCrop(size, place.width / place.height)
}

/** A frame: the after left of the line, the before right of it; the words around are those of what is seen more of. */
function frameOf([before, after]: readonly [End, End], share: number): Buffer {
  const { place, width } = before
  const frame = Buffer.from(share < 0.5 ? before.data : after.data)
  const edge = place.left + Math.round(place.width * share)
  for (let y = place.top; y < place.top + place.height; y += 1) {
    const row = y * width * 3
    const from = row + place.left * 3
    const middle = row + edge * 3
    const to = row + (place.left + place.width) * 3
    after.data.copy(frame, from, from, middle)
    before.data.copy(frame, middle, middle, to)
    if (share > 0 && share < 1) {
      frame.fill(255, Math.max(from, middle - 6), Math.min(to, middle + 6))
    }
  }
  return frame
}

async function animatedWebp(
  ends: readonly [End, End],
  credit: string,
): Promise<Buffer> {
  const { width, height } = ends[0]
  const pages = revealFrames.map(({ share }) => frameOf(ends, share))
  const moving = openPicture(Buffer.concat(pages), {
    raw: {
      width,
      height: height * pages.length,
      channels: 3,
      pageHeight: height,
    },
    limitInputPixels: width * height * pages.length,
  })
  return withCredit(moving, credit)
    .webp({
      quality: 78,
      effort: 2,
      loop: 0,
      delay: revealFrames.map(({ milliseconds }) => milliseconds),
    })
    .toBuffer()
}

async function mp4(ends: readonly [End, End], credit: string): Promise<Buffer> {
  const { width, height } = ends[0]
  const folder = await mkdtemp(path.join(tmpdir(), 'coatbook-reveal-'))
  try {
    const file = path.join(folder, 'reveal.mp4')
    const program = spawn(
      'ffmpeg',
      [
        ...['-hide_banner', '-loglevel', 'error', '-f', 'rawvideo'],
        ...['-pix_fmt', 'rgb24', '-video_size', `${width}x${height}`],
        ...['-framerate', String(framesPerSecond), '-i', 'pipe:0'],
        ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20'],
        ...['-pix_fmt', 'yuv420p', '-movflags', '+faststart'],
        // Neither what made it nor when.
        ...['-map_metadata', '-1', '-fflags', '+bitexact'],
        ...(credit === ''
          ? []
          : [
              '-metadata',
              `artist=${credit}`,
              '-metadata',
              `copyright=${credit}`,
            ]),
        ...['-flags:v', '+bitexact', file],
      ],
      { stdio: ['pipe', 'ignore', 'pipe'], timeout: 60_000 },
    )
    const complaints: Buffer[] = []
    program.stderr.on('data', (part: Buffer) => complaints.push(part))
    // An early end shows in its exit code.
    program.stdin.on('error', () => undefined)
    const ended = new Promise<number | null>((resolve, reject) => {
      program.once('error', reject)
      program.once('close', resolve)
    })
    // Whoever waits for it hears of its failure; until then it must not end the process.
    ended.catch(() => undefined)
    for (const { share, milliseconds } of revealFrames) {
      const frame = frameOf(ends, share)
      const times = Math.max(
        1,
        Math.round((milliseconds * framesPerSecond) / 1000),
      )
      for (let time = 0; time < times; time += 1) {
        if (!program.stdin.write(frame) && program.exitCode === null) {
          await Promise.race([once(program.stdin, 'drain'), ended])
        }
      }
    }
    program.stdin.end()
    const code = await ended
    if (code !== 0) {
      throw new Error(
        `ffmpeg could not make the reveal: ${Buffer.concat(complaints).toString('utf8').slice(0, 500)}`,
      )
    }
    return await readFile(file)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** A video's sides are even. */
function even(length: number): number {
  return Math.round(length / 2) * 2
}
