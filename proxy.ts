import { randomBytes } from 'node:crypto'
import { type NextRequest, NextResponse } from 'next/server'
import { pagePolicy } from './app/_page-policy'

const header = 'content-security-policy'

/**
 * Gives each page a content security policy with a nonce of its own, by which the framework marks its scripts. It judges
 * nobody: who is let in is asked by every page, action and route itself.
 */
export function proxy(request: NextRequest): NextResponse {
  const policy = pagePolicy(
    randomBytes(16).toString('base64'),
    process.env.NODE_ENV === 'development',
  )
  const headers = new Headers(request.headers)
  // The framework reads the nonce here, in place of whatever the sender wrote.
  headers.set(header, policy)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set(header, policy)
  return response
}

export const config = {
  // Pages of the journal only: the bodies of what passes here are held in memory, and an upload must not be; the portfolio
  // answers with a stricter policy of its own, which would be replaced here.
  matcher: '/((?!api/|_next/static/|portfolio(?:/|$)).*)',
}
