import { doorOf } from '#services/devices/door'

/**
 * The origin by which the caller reaches the workshop: by its Host, and over HTTPS where it came by the local network. The
 * framework itself only knows the address that it listens on.
 */
export function originOf(request: Request): string {
  const url = new URL(request.url)
  const host = request.headers.get('host') ?? url.host
  return doorOf(request.headers) === 'network'
    ? `https://${host}`
    : `${url.protocol}//${host}`
}
