import { now } from '#services/clock'
import { diskTrouble } from '#services/database/disk-trouble'
import { isBusy } from '#services/database/is-busy'
import {
  type Standing,
  foreignness,
  standingOf,
} from '#services/devices/standing'
import { problem } from './problem'

type Handler<Context> = (
  request: Request,
  context: Context,
) => Response | Promise<Response>

const known = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'] as const
type Method = (typeof known)[number]

type Opening = {
  readonly open?: boolean | 'published'
  readonly letIn?: ((request: Request) => Promise<boolean>) | undefined
}

/**
 * The handlers of one path, each guarded: a request from another site is turned away, and so is one that is not signed
 * in; an exception becomes a 500 problem and is logged once (503 where only another program was in the way); and a method
 * that is not among them answers 405 with the list of those that are.
 *
 * @param options `open` answers also those who are not signed in, where it is `published` also who follows a link from
 * another site or sees a picture on it; `letIn` those of them whom it knows by something else
 * Use: `export const { GET, POST, PUT, PATCH, DELETE } = methods<RouteContext<'/api/…'>>({ GET: … })`.
 */
export function methods<Context = unknown>(
  handlers: Readonly<Partial<Record<Method, Handler<Context>>>>,
  { open = false, letIn }: Opening = {},
): Record<Method, Handler<Context>> {
  const allowed = known.filter((method) => handlers[method] !== undefined)
  const guard =
    (method: Method): Handler<Context> =>
    async (request, context) => {
      try {
        const refusal = await refusalOf(request, { open, letIn })
        if (refusal !== undefined) return refusal
        const handler = handlers[method]
        if (handler === undefined) {
          return problem(
            405,
            `${method} does nothing here; use ${allowed.join(' or ')}.`,
            {},
            { allow: allowed.join(', ') },
          )
        }
        return withPolicy(await handler(request, context))
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
        const trouble = diskTrouble(error)
        if (trouble === 'full' || trouble === 'read-only') {
          return problem(507, diskWords[trouble])
        }
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

// 507: Insufficient Storage, RFC 4918 section 11.5.
const diskWords = {
  full: 'The disk that the journal is on is full. What was kept before is safe; make room, then send this again.',
  'read-only':
    'Coatbook may not write on the disk that the journal is on. What was kept before is safe; mend that, then send this again.',
} as const

/**
 * What a route answers is data: opened by itself in a browser, nothing in it runs and nothing is loaded from it. Browsers
 * show a PDF on a page of their own making, which a policy of ours would break.
 */
function withPolicy(answer: Response): Response {
  const policy = 'content-security-policy'
  const isPdf = answer.headers.get('content-type') === 'application/pdf'
  if (!answer.headers.has(policy)) {
    answer.headers.set(
      policy,
      isPdf
        ? "frame-ancestors 'none'"
        : "default-src 'none'; frame-ancestors 'none'",
    )
  }
  return answer
}

const anotherSite = 'This was sent from a page of another site.'

const reasons: Readonly<
  Record<Exclude<Standing, 'welcome'>, readonly [number, string]>
> = {
  unknown: [
    401,
    'Sign in first: pair this phone at the desk computer, under Workshop, or send the token of a device.',
  ],
  'foreign-host': [
    403,
    'This workshop does not answer by that name. Open it at http://localhost, or at the address that the desk computer shows under Workshop.',
  ],
  'foreign-site': [403, anotherSite],
  'through-proxy': [
    403,
    'This came through a proxy, and this workshop answers the machine that it runs on alone. To reach it over the local network start it with "npm run start:lan".',
  ],
}

/**
 * Why a request is not taken, or undefined when it may be. More than a page, a route also turns away what follows a link
 * or shows a picture from another site.
 */
async function refusalOf(
  request: Request,
  { open = false, letIn }: Opening,
): Promise<Response | undefined> {
  const isReading = ['GET', 'HEAD'].includes(request.method)
  const site = request.headers.get('sec-fetch-site')
  // Another server of this machine is the same site to a browser.
  const isForeign =
    (site === 'cross-site' && !(open === 'published' && isReading)) ||
    (site === 'same-site' && !isReading)
  if (isForeign) {
    return problem(403, anotherSite)
  }
  const standing =
    open !== false
      ? (foreignness(request.headers) ?? 'welcome')
      : await standingOf(request.headers, now())
  if (standing === 'welcome') return undefined
  if (standing === 'unknown' && (await letIn?.(request))) return undefined
  const [status, detail] = reasons[standing]
  return problem(
    status,
    detail,
    {},
    status === 401 ? { 'www-authenticate': 'Bearer' } : {},
  )
}
