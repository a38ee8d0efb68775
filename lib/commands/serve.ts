import { forwardIpv6 } from './loopback'
import { spawnServer, untilReady } from './spawn-server'

/**
 * Runs the server for this machine alone until it ends, and says in one line when it is ready.
 *
 * An interrupt or a request to end is passed on to it, and is then no failure.
 *
 * @param mode `start` serves the production build, `dev` the sources
 * @param root the folder of this package
 * @returns the exit code for this process
 */
export async function serve(
  mode: 'start' | 'dev',
  root: string,
  port: number,
): Promise<number> {
  const child = spawnServer(mode, root, port)
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
  if (await untilReady(child, port)) {
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

/** The shell between npm and this process does not pass on a request to end: when it is gone, so is the request. */
function stopWithParent(stop: () => void): NodeJS.Timeout | undefined {
  if (process.env['npm_lifecycle_event'] === undefined) return undefined
  const parent = process.ppid
  return setInterval(() => {
    if (process.ppid !== parent) stop()
  }, 500)
}
