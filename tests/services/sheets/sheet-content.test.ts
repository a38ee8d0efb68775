import { beforeEach, describe, expect, test } from 'vitest'
import { addPair } from '#services/pairs/pairs'
import { readSheetContent } from '#services/sheets/sheet-content'
import { now } from '#services/clock'
import { keepEdit } from '#services/write-ups/edits'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { startJob, writeStep } from '../../support/api-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
let job: Awaited<ReturnType<typeof startJob>>

async function send(role: string, view: string, width: number) {
  const fields: [string, string][] = [
    ['role', role],
    ['view', view],
  ]
  const photo = await makePhoto({ width, height: 300 })
  const { photos } = await sendPhotos(job.id, [['a.jpg', photo]], fields)
  return photos[0]?.id ?? ''
}

async function shown(chosen: Parameters<typeof readSheetContent>[1]) {
  const content = await readSheetContent(job.id, chosen)
  if (!content.ok) throw new Error(content.refusal.detail)
  const pictures = await content.value.open('as-taken')
  return {
    kind: content.value.layout(pictures).kind,
    captions: pictures.map(({ caption }) => caption),
    widths: pictures.map(({ size }) => size.width),
    alternatives: content.value.alternatives,
  }
}

beforeEach(async () => {
  job = await startJob(['body'])
})

describe('a grid', () => {
  test('shows the pairs that belong together, each with one alternative, or those that are chosen', async () => {
    const pairs: string[] = []
    for (const [index, view] of ['front', 'top'].entries()) {
      const before = await send('before', view, 400 + index)
      const after = await send('after', view, 500 + index)
      const added = await addPair(job.id, { before, after }, now())
      if (added.ok) pairs.push(added.value.id)
    }
    const all = await shown({ show: 'grid' })
    expect(all.kind).toBe('pairs')
    expect(all.captions).toEqual(['Before', 'After', 'Before', 'After'])
    expect(all.alternatives.filter((one) => one !== '')).toHaveLength(2)
    expect(all.widths).toEqual([400, 500, 401, 501])
    const one = await shown({ show: 'grid', pairs: pairs.slice(1) })
    expect(one.widths).toEqual([401, 501])
    expect(
      await readSheetContent(job.id, { show: 'grid', pairs: ['none'] }),
    ).toMatchObject({ refusal: { kind: 'invalid' } })
  })
})

describe('a story', () => {
  test('goes from before over its steps to after, and the owner may choose which', async () => {
    await send('before', 'front', 400)
    const strip = await send('progress', 'front', 410)
    const paint = await send('progress', 'front', 420)
    await send('after', 'front', 430)
    expect(await readSheetContent(job.id, { show: 'story' })).toMatchObject({
      refusal: { kind: 'conflict' },
    })
    const surfaces = [job.surface('body')]
    await writeStep(job, { kind: 'strip', surfaces, photos: [strip] })
    await writeStep(job, { kind: 'coat', surfaces, photos: [paint] })
    const told = await shown({ show: 'story' })
    expect(told.kind).toBe('story')
    expect(told.captions.toSorted()).toEqual(
      ['After', 'Before', 'Painted', 'Stripped'].toSorted(),
    )
    expect(told.captions[0]).toBe('Before')
    expect(told.captions.at(-1)).toBe('After')
    expect(told.alternatives.every((one) => one !== '')).toBe(true)
    const words = 'The second coat, wet, from the window'
    await keepEdit(
      job.id,
      { writeUp: 'photos', sentence: `photo ${paint}`, words },
      now(),
    )
    const own = await shown({ show: 'story', photos: [paint] })
    expect(own.alternatives[1]).toBe(words)
    expect(own.captions).toEqual(['Before', 'Painted', 'After'])
    expect(await shown({ show: 'steps' })).toMatchObject({ kind: 'story' })
  })
})
