export function markToCompileEarly(build: {
  readonly distDir: string
}): Promise<void>
