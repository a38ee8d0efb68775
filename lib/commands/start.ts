import { buildIfChanged } from './build-if-changed'
import { prepare } from './prepare'
import { serve } from './serve'

const root = process.cwd()
const ready = await prepare(root)
if (ready === undefined) {
  process.exitCode = 1
} else if (!(await buildIfChanged(root))) {
  console.error('Coatbook could not be built. See above why.')
  process.exitCode = 1
} else {
  process.exitCode = await serve('start', root, ready.port)
}
