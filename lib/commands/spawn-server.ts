import { type ChildProcess, spawn } from 'node:child_process'
import { setTimeout as wait } from 'node:timers/promises'
import { installedTool } from './installed-tool'
import { ipv4Loopback } from './loopback'
import { collectionFlags, memoryEnvironment } from './memory-environment'

/**
 * Starts the server for this machine alone.
 *
 * @param mode `start` serves the production build, `dev` the sources
 * @param root the folder of this package
 * @param environment what to set besides the environment of this process
 */
export function spawnServer(
  mode: 'start' | 'dev',
  root: string,
  port: number,
  environment: Readonly<Record<string, string>> = {},
): ChildProcess {
  return spawn(
    process.execPath,
    [
      // The development server hands its flags on in a way that takes only some of them.
      ...(mode === 'start' ? collectionFlags : []),
      installedTool('next'),
      mode,
      '-p',
      String(port),
      '-H',
      ipv4Loopback,
    ],
    {
      cwd: root,
      stdio: ['ignore', mode === 'dev' ? 'inherit' : 'ignore', 'inherit'],
      env: {
        ...process.env,
        NODE_ENV: mode === 'dev' ? 'development' : 'production',
        NEXT_TELEMETRY_DISABLED: '1',
        ...memoryEnvironment,
        ...environment,
      },
    },
  )
}

/** Waits until the server answers; false when it ended before. */
export async function untilReady(
  child: ChildProcess,
  port: number,
): Promise<boolean> {
  while (child.exitCode === null && child.signalCode === null) {
    try {
      const answer = await fetch(`http://${ipv4Loopback}:${port}/api/health`)
      if (answer.ok) return true
    } catch {
      // Not listening yet.
    }
    await wait(100)
  }
  return false
}
