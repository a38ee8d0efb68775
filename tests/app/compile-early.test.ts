import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import os from 'node:os'
import path from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { markToCompileEarly } from '../../app/_compile-early.mjs'

let build = ''

afterEach(() => rm(build, { recursive: true }))

async function filesOfBuild(
  files: Readonly<Record<string, string>>,
): Promise<void> {
  build = await mkdtemp(path.join(os.tmpdir(), 'coatbook-build-'))
  for (const [name, text] of Object.entries(files)) {
    const file = path.join(build, 'static', 'chunks', name)
    await mkdir(path.dirname(file), { recursive: true })
    await writeFile(file, text)
  }
}

const read = (name: string): Promise<string> =>
  readFile(path.join(build, 'static', 'chunks', name), 'utf8')

// Source: WICG, Explicit JavaScript Compile Hints (File-Based): a comment of its own line, before what it speaks of.
test('every script of a build is marked once, and nothing else', async () => {
  await filesOfBuild({
    'bench.js': '"use strict";f(“é”)\n',
    'app/deep.js': 'g()',
    'look.css': 'p{}',
  })
  await markToCompileEarly({ distDir: build })
  await markToCompileEarly({ distDir: build })
  expect(await read('bench.js')).toBe(
    '//# allFunctionsCalledOnLoad\n"use strict";f(“é”)\n',
  )
  expect(await read('app/deep.js')).toBe('//# allFunctionsCalledOnLoad\ng()')
  expect(await read('look.css')).toBe('p{}')
})
