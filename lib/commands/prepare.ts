import { mkdirSync } from 'node:fs'
import {
  type Environment,
  readEnvironment,
} from '#services/settings/environment'
import { generateClient } from './generate-client'
import { isPortTaken } from './loopback'

/**
 * Makes ready what a server needs besides its build: the settings, a free port, the database client, and on the first
 * run the demo.
 *
 * @param root the folder of this package
 * @returns the settings, or undefined when something is in the way, which has been said
 */
export async function prepare(root: string): Promise<Environment | undefined> {
  try {
    const environment = readEnvironment()
    if (await isPortTaken(environment.port)) {
      throw new Error(
        `Port ${environment.port} is taken. Stop what uses it, or set PORT to another one.`,
      )
    }
    if (!(await generateClient(root))) {
      throw new Error('The database client could not be made. See above why.')
    }
    mkdirSync(environment.dataFolder, { recursive: true })
    if (environment.demo) {
      // Only now: it loads the database client.
      const { loadDemo } = await import('./load-demo')
      await loadDemo(environment.dataFolder)
    }
    return environment
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error))
    return undefined
  }
}
