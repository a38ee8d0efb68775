import { spawnSync } from 'node:child_process'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'
import { database, openDataFolder } from '#services/database/open-database'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a second server on a data folder says why in one line and ends with code 1', async () => {
  await database()
  const { root } = await openDataFolder()
  const file = pathToFileURL('lib/services/database/open-for-serving.ts').href
  const second = spawnSync(
    process.execPath,
    [
      '--import',
      'tsx',
      '--conditions=react-server',
      '--input-type=module',
      '--eval',
      `import { openForServing } from ${JSON.stringify(file)}\nawait openForServing()\nconsole.log('serving')`,
    ],
    { encoding: 'utf8', env: { ...process.env, COATBOOK_DATA: root } },
  )
  expect(second.status).toBe(1)
  expect(second.stdout).toBe('')
  expect(second.stderr.trim().split('\n')).toEqual([
    expect.stringContaining(root),
  ])
})
