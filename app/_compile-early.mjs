// Read by next.config.mjs, once the pages' scripts are built.
import { readFile, readdir, writeFile } from 'node:fs/promises'
import path from 'node:path'

/** Says to a browser that all functions of a script are wanted as soon as it is there. */
const compileEarly = '//# allFunctionsCalledOnLoad\n'

/**
 * Marks the scripts of a finished build to be compiled while they come, on another processor of the phone; without it most
 * functions are compiled on the one that answers the finger, each as it is first called. Ours are small and split by use; of
 * the framework's more is compiled than is called. Browsers that do not know the mark see a comment.
 *
 * @param build its folder
 * Source: WICG, Explicit JavaScript Compile Hints (File-Based).
 */
export async function markToCompileEarly({ distDir }) {
  const folder = path.join(distDir, 'static', 'chunks')
  for (const name of await readdir(folder, { recursive: true })) {
    if (!name.endsWith('.js')) continue
    const file = path.join(folder, name)
    const script = await readFile(file, 'utf8')
    if (!script.startsWith(compileEarly))
      await writeFile(file, `${compileEarly}${script}`)
  }
}
