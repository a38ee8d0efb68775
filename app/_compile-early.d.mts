/** Says to a browser that all functions of a script are wanted as soon as it is there. */
export const compileEarly: string
export function markToCompileEarly(build: {
  readonly distDir: string
}): Promise<void>
