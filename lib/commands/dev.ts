import { prepare } from './prepare'
import { serve } from './serve'

const root = process.cwd()
const ready = await prepare(root)
process.exitCode =
  ready === undefined ? 1 : await serve('dev', root, ready.port)
