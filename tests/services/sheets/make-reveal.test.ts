import { execFileSync } from 'node:child_process'
import { beforeEach, expect, test } from 'vitest'
import { revealFrames } from '#core/sheets/reveal-frames'
import { newPicture, openPicture } from '#services/renditions/open-picture'
import { hasFfmpeg } from '#services/sheets/has-ffmpeg'
import { makeReveal } from '#services/sheets/make-reveal'
import { makeJob } from '../../support/make-job'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const orange = { r: 220, g: 120, b: 40 }
const teal = { r: 20, g: 110, b: 120 }
let jobId = ''

beforeEach(async () => {
  jobId = (await makeJob('Oak sideboard')).id
  for (const [role, background] of [
    ['before', orange],
    ['after', teal],
  ] as const) {
    const photo = await newPicture({
      create: { width: 1200, height: 900, channels: 3, background },
    })
      .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
      .toBuffer()
    const fields: [string, string][] = [
      ['role', role],
      ['view', 'front'],
    ]
    await sendPhotos(jobId, [[`${role}.jpg`, photo]], fields)
  }
})

/** The shares of a frame that are near each of the two colours. */
async function sharesOf(frame: Buffer): Promise<readonly [number, number]> {
  const { data, info } = await openPicture(frame)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  const near = (colour: { r: number; g: number; b: number }) => {
    let count = 0
    for (let at = 0; at < data.length; at += 3) {
      const apart =
        Math.abs((data[at] ?? 0) - colour.r) +
        Math.abs((data[at + 1] ?? 0) - colour.g) +
        Math.abs((data[at + 2] ?? 0) - colour.b)
      if (apart < 40) count += 1
    }
    return count / (info.width * info.height)
  }
  return [near(orange), near(teal)]
}

test('an animated reveal begins with the before, ends with the after, and says nothing of its making', async () => {
  const made = await makeReveal(jobId, '1x1', 'webp')
  if (!made.ok) throw new Error(made.refusal.detail)
  expect(made.value).toMatchObject({
    mediaType: 'image/webp',
    fileName: 'oak-sideboard-1x1-reveal-quiet.webp',
  })
  const { bytes } = made.value
  const found = await openPicture(bytes).metadata()
  expect(found).toMatchObject({ width: 720, height: 720, loop: 0 })
  expect(found.pages).toBe(revealFrames.length)
  expect(found.delay).toEqual(revealFrames.map((one) => one.milliseconds))
  expect(found.exif ?? found.xmp).toBeUndefined()
  const frame = async (page: number) =>
    sharesOf(await openPicture(bytes, { page }).png().toBuffer())
  const first = await frame(0)
  const last = await frame(revealFrames.length - 1)
  const middle = await frame(Math.floor(revealFrames.length / 2))
  expect(first[0]).toBeGreaterThan(0.4)
  expect(first[1]).toBeLessThan(0.01)
  expect(last[1]).toBeGreaterThan(0.4)
  expect(last[0]).toBeLessThan(0.01)
  expect(middle[0]).toBeGreaterThan(0.1)
  expect(middle[1]).toBeGreaterThan(0.1)
})

test('a video is H.264 where ffmpeg is found, and is refused with a reason where it is not', async () => {
  const path = process.env['PATH']
  if (await hasFfmpeg()) {
    const made = await makeReveal(jobId, '9x16', 'mp4')
    if (!made.ok) throw new Error(made.refusal.detail)
    expect(made.value.mediaType).toBe('video/mp4')
    // ISO/IEC 14496-12: a file begins with its ftyp box.
    expect(made.value.bytes.subarray(4, 8).toString('latin1')).toBe('ftyp')
    expect(made.value.bytes.includes('avc1')).toBe(true)
    const told = execFileSync(
      'ffmpeg',
      ['-hide_banner', '-i', 'pipe:0', '-f', 'null', '-', '-loglevel', 'error'],
      { input: made.value.bytes, encoding: 'utf8' },
    )
    expect(told).toBe('')
  }
  try {
    process.env['PATH'] = '/nowhere'
    expect(await hasFfmpeg()).toBe(false)
    const refused = await makeReveal(jobId, '1x1', 'mp4')
    expect(refused.ok ? '' : refused.refusal.detail).toContain('ffmpeg')
  } finally {
    process.env['PATH'] = path
  }
})
