import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { openSync } from 'fontkit'
import { describe, expect, test } from 'vitest'
import { textPicture } from '#services/sheets/text-picture'

const style = { face: 'serif', size: 40, colour: '#000000' } as const

/** "Cupboard" or some other furniture, in the scripts that are shipped; the words themselves do not matter. */
const scripts = [
  ['Latin', 'Łódź, tủ gỗ, ⅝'],
  ['Greek', 'Ντουλάπα'],
  ['Cyrillic', 'Комод, шафа'],
  ['Armenian', 'Պահարան'],
  ['Georgian', 'კარადა'],
  ['Hebrew', 'ארון'],
  ['Arabic', 'خزانة'],
  ['Devanagari', 'अलमारी'],
  ['Bengali', 'আলমারি'],
  ['Gujarati', 'કબાટ'],
  ['Gurmukhi', 'ਅਲਮਾਰੀ'],
  ['Tamil', 'அலமாரி'],
  ['Telugu', 'అల్మారా'],
  ['Kannada', 'ಕಪಾಟು'],
  ['Malayalam', 'അലമാര'],
  ['Sinhala', 'අල්මාරිය'],
  ['Thai', 'ตู้เสื้อผ้า'],
  ['Lao', 'ຕູ້'],
  ['Khmer', 'ទូ'],
  ['Myanmar', 'ဗီရို'],
  ['Ethiopic', 'ቁምሳጥን'],
  ['Japanese', '食器棚、たんす'],
  ['Chinese', '衣柜 衣櫃'],
  ['Korean', '서랍장'],
] as const

/** Draws in a program of its own, as what the text engine knows of fonts is settled once in each. */
function drawnApart(environment: Readonly<Record<string, string>>): string {
  const program = `
    import { createHash } from 'node:crypto'
    import { textPicture } from './lib/services/sheets/text-picture.ts'
    const words = JSON.parse(process.argv[1])
    const drawn = []
    for (const one of words) {
      const { pixels, width, height } = await textPicture(one, ${JSON.stringify(style)})
      drawn.push([one, width, height, createHash('sha256').update(pixels).digest('hex')])
    }
    console.log(JSON.stringify(drawn))`
  return execFileSync(
    process.execPath,
    [
      '--import',
      'tsx',
      '--conditions=react-server',
      '--input-type=module',
      '--eval',
      program,
      JSON.stringify(scripts.map(([, words]) => words)),
    ],
    {
      env: {
        NODE_ENV: 'test',
        PATH: process.env['PATH'],
        ...environment,
      },
      encoding: 'utf8',
    },
  )
}

describe('words', () => {
  test('are words and never markup', async () => {
    const bold = await textPicture('<b>Pine</b>', style)
    const plain = await textPicture('Pine', style)
    // Read as markup it would be about as wide as the plain word.
    expect(bold.width).toBeGreaterThan(plain.width * 1.5)
  })

  test('are broken at the width, even one word that is wider', async () => {
    const one = await textPicture('x'.repeat(400), style, 600)
    expect(one.width).toBeLessThanOrEqual(600)
    expect(one.height).toBeGreaterThan(200)
  })

  test('differ in each face', async () => {
    const widths = await Promise.all(
      (['serif', 'sans', 'heavy'] as const).map(
        async (face) => (await textPicture('Before', { ...style, face })).width,
      ),
    )
    expect(new Set(widths).size).toBe(3)
  })
})

describe('the fonts', () => {
  test('are those shipped: a machine without any draws the same, pixel by pixel', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-fonts-'))
    try {
      const none = path.join(folder, 'fonts.conf')
      writeFileSync(none, `<fontconfig><dir>${folder}</dir></fontconfig>`)
      const bare = drawnApart({
        HOME: folder,
        XDG_CACHE_HOME: folder,
        FONTCONFIG_FILE: none,
        FONTCONFIG_PATH: folder,
      })
      expect(bare).toBe(drawnApart({ HOME: process.env['HOME'] ?? folder }))
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  test.each(scripts)('have the letters of %s', (_name, words) => {
    expect(missing(words)).toEqual([])
  })

  test('do not have every letter, or the test above could not fail', () => {
    expect(missing('𓀀')).toEqual(['𓀀'])
  })
})

const shipped = readdirSync('lib/services/sheets/fonts', { recursive: true })
  .map(String)
  .filter((file) => /\.(ttf|otf)$/.test(file))
  .flatMap((file) => {
    const font = openSync(path.join('lib/services/sheets/fonts', file))
    return 'hasGlyphForCodePoint' in font ? [font] : []
  })

/** Letters that none of the shipped files has, by their own tables. */
function missing(words: string): readonly string[] {
  return Array.from(words).filter(
    (letter) =>
      letter.trim() !== '' &&
      !shipped.some((font) =>
        font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0),
      ),
  )
}
