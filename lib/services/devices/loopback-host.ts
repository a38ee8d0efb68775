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
