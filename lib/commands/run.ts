import { type SpawnOptions, spawn } from 'node:child_process'

type Output = 'shown' | 'on-failure' | 'never'

/**
 * Runs a program to its end.
 *
 * @param options when its output is shown: as it comes unless told otherwise
 * @returns its exit code; 1 when it was ended by a signal or cannot be started
 */
export function run(
  program: string,
  args: readonly string[],
  {
    output = 'shown',
    ...options
  }: Omit<SpawnOptions, 'stdio'> & { readonly output?: Output } = {},
): Promise<number> {
  return new Promise((resolve) => {
    const stdio = output === 'shown' ? 'inherit' : 'pipe'
    const child = spawn(program, args, {
      stdio: ['ignore', stdio, stdio],
      ...options,
    })
    const said: Buffer[] = []
    child.stdout?.on('data', (chunk: Buffer) => said.push(chunk))
    child.stderr?.on('data', (chunk: Buffer) => said.push(chunk))
    child.once('error', (error) => {
      console.error(error.message)
      resolve(1)
    })
    child.once('close', (code) => {
      if (code !== 0 && output !== 'never')
        process.stderr.write(Buffer.concat(said))
      resolve(code ?? 1)
    })
  })
}
