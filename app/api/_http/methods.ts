import { isBusy } from '#services/database/is-busy'
import { isLoopbackHost } from '#services/devices/loopback-host'
import { problem } from './problem'

type Handler<Context> = (
  request: Request,
  context: Context,
) => Response | Promise<Response>

const known = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const
type Method = (typeof known)[number]

/**
 * The handlers of one path, each guarded: a request from another site is turned away, an exception becomes a 500
 * problem and is logged once (503 where only another program was in the way), and a method that is not among them answers 405 with the list of those that are.
 *
 * Use: `export const { GET, POST, PUT, PATCH, DELETE } = methods<RouteContext<'/api/…'>>({ GET: … })`.
 */
export function methods<Context = unknown>(
  handlers: Readonly<Partial<Record<Method, Handler<Context>>>>,
): Record<Method, Handler<Context>> {
  const allowed = known.filter((method) => handlers[method] !== undefined)
  const guard =
    (method: Method): Handler<Context> =>
    async (request, context) => {
      const handler = handlers[method]
      if (handler === undefined) {
        return problem(
          405,
          `${method} does nothing here; use ${allowed.join(' or ')}.`,
          {},
          { allow: allowed.join(', ') },
        )
      }
      const foreign = foreignRequest(request)
      if (foreign !== undefined) return problem(403, foreign)
      try {
        return await handler(request, context)
      } catch (error) {
        if (isBusy(error)) {
          return problem(
            503,
            'Another program is using the database. Nothing was kept; send it again in a moment.',
            {},
            { 'retry-after': '5' },
          )
        }
        console.error(error)
        return problem(
          500,
          'Something broke on our side. Look whether it was kept before you send it again.',
        )
      }
    }
  return {
    GET: guard('GET'),
    POST: guard('POST'),
    PUT: guard('PUT'),
    PATCH: guard('PATCH'),
    DELETE: guard('DELETE'),
  }
}

/**
 * Why a request is not taken, or undefined when it may be: it names a host that is not this machine (a name made to
 * resolve to it by another site), or it comes from a page of another site.
 */
function foreignRequest(request: Request): string | undefined {
  const host = request.headers.get('host')
  if (host !== null && !isLoopbackHost(host)) {
    return 'This workshop answers only on the machine it runs on. Open it at http://localhost.'
  }
  const site = request.headers.get('sec-fetch-site')
  if (site === 'cross-site') return 'This was sent from a page of another site.'
  if (request.method === 'GET') return undefined
  const origin = request.headers.get('origin')
  if (origin !== null && origin !== 'null' && host !== null) {
    const from = URL.canParse(origin) ? new URL(origin).host : ''
    if (from !== host) return 'This was sent from a page of another site.'
  }
  return origin === 'null'
    ? 'This was sent from a page of another site.'
    : undefined
}
