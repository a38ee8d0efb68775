import { forwardIpv6 } from './loopback'
import { spawnServer, untilReady } from './spawn-server'

/**
 * Runs the server for this machine alone until it ends, and says in one line when it is ready.
 *
 * An interrupt or a request to end is passed on to it, and is then no failure.
 *
 * @param mode `start` serves the production build, `dev` the sources
 * @param root the folder of this package
 * @param options what to set in the server's environment, and what to open once it answers and close when it ends
 * @returns the exit code for this process
 */
export async function serve(
  mode: 'start' | 'dev',
  root: string,
  port: number,
  {
    environment = {},
    openMore,
  }: {
    readonly environment?: Readonly<Record<string, string>>
    readonly openMore?: () => Promise<{ readonly close: () => void }>
  } = {},
): Promise<number> {
  const child = spawnServer(mode, root, port, environment)
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
  let more: { readonly close: () => void } | undefined
  let failed = false
  if (await untilReady(child, port)) {
    console.log(
      `Coatbook is ready at http://localhost:${port} for this machine alone. Stop it with Ctrl+C.`,
    )
    try {
      more = await openMore?.()
    } catch (error) {
      console.error(error instanceof Error ? error.message : String(error))
      failed = true
      stop('SIGTERM')
    }
  }
  const code = (await ended) || (failed ? 1 : 0)
  more?.close()
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
