/**
 * Whether a Host header names this machine itself.
 *
 * @param host as the header has it, with or without a port
 */
export function isLoopbackHost(host: string): boolean {
  const name = host.replace(/:\d+$/, '').toLowerCase()
  return (
    name === 'localhost' ||
    name === '[::1]' ||
    /^127(?:\.\d{1,3}){3}$/.test(name)
  )
}

/** Whether this is an address of this machine itself, as a connection from it has: `127.0.0.1`, `::1`, `::ffff:127.0.0.1`. */
export function isLoopbackAddress(address: string): boolean {
  return /^(?:(?:::ffff:)?127(?:\.\d{1,3}){3}|::1)$/i.test(address.trim())
}
