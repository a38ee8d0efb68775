import type { IncomingMessage } from 'node:http'
import { problem } from './problem'

/** What routes are asked by. HEAD and OPTIONS the framework answers for them. */
const ofRoutes = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS']
/** Pages are read, and their forms send. */
const ofPages = ['GET', 'HEAD', 'POST']
const ofFiles = ['GET', 'HEAD']

/**
 * A problem of 405 for a method that does nothing at an address, where the framework would break (500) or show the page as
 * if nothing had been sent; undefined where it may be asked. Which methods a route knows it says itself (`methods`).
 *
 * @param address as in the first line of a request
 * Source: RFC 9110, section 15.5.6.
 */
export function refusalOfMethod(
  method: string,
  address: string,
): Response | undefined {
  const allowed = methodsAt(pathOf(address))
  if (allowed.includes(method)) return undefined
  return problem(
    405,
    `${method} does nothing here; use ${allowed.join(' or ')}.`,
    {},
    {
      allow: allowed.join(', '),
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
    },
  )
}

/** The same, asked before the framework is. */
export function answerToWrongMethod({
  method = '',
  url = '',
}: IncomingMessage): Promise<Response> | undefined {
  const refusal = refusalOfMethod(method, url)
  return refusal === undefined ? undefined : Promise.resolve(refusal)
}

function methodsAt(path: string): readonly string[] {
  if (path.startsWith('/api/')) return ofRoutes
  // No page has a dot in its name: what has one is a file.
  const isFile =
    path.startsWith('/_next/') ||
    path.slice(path.lastIndexOf('/')).includes('.')
  return isFile ? ofFiles : ofPages
}

/** The path of an address, as whatever is at it is found: without a host, a query, and percent signs. */
function pathOf(address: string): string {
  const [path = ''] = address.replace(/^https?:\/\/[^/]*/i, '').split(/[?#]/)
  try {
    return decodeURIComponent(path)
  } catch {
    return path
  }
}
