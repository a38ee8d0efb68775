import { generateClient } from './generate-client'

process.exitCode = (await generateClient(process.cwd())) ? 0 : 1
