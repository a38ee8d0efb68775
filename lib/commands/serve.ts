import { type ChildProcess, spawn } from 'node:child_process'
import { setTimeout as wait } from 'node:timers/promises'
import { installedTool } from './installed-tool'
import { forwardIpv6, ipv4Loopback } from './loopback'

/**
 * Runs the server for this machine alone until it ends, and says in one line when it is ready.
 *
 * An interrupt or a request to end is passed on to it, and is then no failure.
 *
 * @param mode `start` serves the production build, `dev` the sources
 * @returns the exit code for this process
 */
export async function serve(
  mode: 'start' | 'dev',
  root: string,
  port: number,
): Promise<number> {
  const child = spawn(
    process.execPath,
    [installedTool('next'), mode, '-p', String(port), '-H', ipv4Loopback],
    {
      cwd: root,
      stdio: ['ignore', mode === 'dev' ? 'inherit' : 'ignore', 'inherit'],
      env: {
        ...process.env,
        NODE_ENV: mode === 'dev' ? 'development' : 'production',
        NEXT_TELEMETRY_DISABLED: '1',
      },
    },
  )
  let asked = false
  const stop = (signal: NodeJS.Signals) => {
    asked = true
    child.kill(signal)
  }
  process.on('SIGINT', stop)
  process.on('SIGTERM', stop)
  const ended = new Promise<number>((resolve) => {
    child.once('close', (code) => {
      resolve(asked ? 0 : (code ?? 1))
    })
  })
  const parent = stopWithParent(() => {
    stop('SIGTERM')
  })
  const ipv6 = await forwardIpv6(port)
  if (await isReady(child, port)) {
    console.log(
      `Coatbook is ready at http://localhost:${port} for this machine alone. Stop it with Ctrl+C.`,
    )
  }
  const code = await ended
  clearInterval(parent)
  ipv6?.close()
  process.off('SIGINT', stop)
  process.off('SIGTERM', stop)
  return code
}

async function isReady(child: ChildProcess, port: number): Promise<boolean> {
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

/** The shell between npm and this process does not pass on a request to end: when it is gone, so is the request. */
function stopWithParent(stop: () => void): NodeJS.Timeout | undefined {
  if (process.env['npm_lifecycle_event'] === undefined) return undefined
  const parent = process.ppid
  return setInterval(() => {
    if (process.ppid !== parent) stop()
  }, 500)
}
