import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { openPicture } from '#services/renditions/open-picture'
import { makeSheet } from '#services/sheets/make-sheet'
import {
  changeMarkWords,
  keepMarkPicture,
  readMark,
  removeMarkPicture,
} from '#services/sheets/own-mark'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
const now = instant(Date.UTC(2026, 10, 25))

async function send(bytes: Uint8Array, name = 'mark.jpg') {
  const form = new FormData()
  form.append('file', new Blob([new Uint8Array(bytes)]), name)
  const { headers, body } = new Request('http://localhost/', {
    method: 'POST',
    body: form,
  })
  return keepMarkPicture(headers.get('content-type') ?? '', body, now)
}

describe('the own mark', () => {
  test('is words, a picture, both or nothing', async () => {
    expect(await readMark()).toBeUndefined()
    await changeMarkWords('  Alder\n<Yard> ', now)
    expect(await readMark()).toEqual({ words: 'Alder Yard' })
    expect(await send(await makePhoto({ width: 1600, height: 400 }))).toEqual({
      ok: true,
      value: { width: 800, height: 200 },
    })
    expect(await readMark()).toMatchObject({
      words: 'Alder Yard',
      picture: { width: 800, height: 200 },
    })
    await removeMarkPicture(now)
    expect(await readMark()).toEqual({ words: 'Alder Yard' })
    await changeMarkWords('', now)
    expect(await readMark()).toBeUndefined()
  })

  test('is written anew: no place and no camera of the file that came', async () => {
    const photo = await makePhoto({
      width: 300,
      height: 200,
      make: 'Example',
      place: ['51/1 30/1 0/1', '0/1 7/1 0/1'],
    })
    // The file does hold a camera: otherwise this test could not fail.
    expect((await openPicture(photo).metadata()).exif).toBeDefined()
    await send(photo)
    const picture = (await readMark())?.picture
    const found = await openPicture(
      picture?.bytes ?? Buffer.alloc(0),
    ).metadata()
    expect(found.format).toBe('png')
    expect(found.exif).toBeUndefined()
    expect(found.xmp).toBeUndefined()
  })

  test.each([
    ['text', Buffer.from('not a picture')],
    ['a drawing', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>')],
  ])('is not %s, and the one before stays', async (_name, bytes) => {
    await send(await makePhoto())
    expect(await send(bytes, 'mark.png')).toMatchObject({
      ok: false,
      refusal: { kind: 'invalid' },
    })
    expect((await readMark())?.picture).toBeDefined()
  })

  test('stands on a sheet that asks for it', async () => {
    const { id } = await makeJob('Oak sideboard')
    for (const role of ['before', 'after']) {
      const width = role === 'after' ? 640 : 800
      const photo = await makePhoto({ width, height: 600 })
      const fields: [string, string][] = [
        ['role', role],
        ['view', 'front'],
      ]
      await sendPhotos(id, [['a.jpg', photo]], fields)
    }
    const pixelsOf = async () => {
      const made = await makeSheet(id, '1x1', 'png', {
        elements: ['title', 'mark'],
      })
      return made.ok ? made.value.bytes : Buffer.alloc(0)
    }
    const without = await pixelsOf()
    await send(await makePhoto({ width: 200, height: 200 }))
    expect((await pixelsOf()).equals(without)).toBe(false)
  })
})
