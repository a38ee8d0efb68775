import { expect, test } from 'vitest'
import { sheetFileName } from '#core/sheets/sheet-file-name'

test.each([
  ['Oak sideboard', 'oak-sideboard-1x1-quiet.jpg'],
  [' Łódź: “café” 3/4 ', 'łódź-café-3-4-1x1-quiet.jpg'],
  ['../../etc/passwd', 'etc-passwd-1x1-quiet.jpg'],
  ['食器棚', '食器棚-1x1-quiet.jpg'],
  ['🌿', 'sheet-1x1-quiet.jpg'],
])('the sheet of %j is called %s', (title, name) => {
  const parts = { shape: '1x1', design: 'quiet', format: 'jpg' }
  expect(sheetFileName({ title, ...parts })).toBe(name)
})

test('a long title is cut', () => {
  const name = sheetFileName({
    title: 'x'.repeat(400),
    shape: '4x5',
    design: 'quiet',
    format: 'png',
  })
  expect(name).toBe(`${'x'.repeat(60)}-4x5-quiet.png`)
})
