import { closeDatabase } from '#services/database/open-database'
import { forgetPassphrase } from '#services/devices/passphrase'

try {
  await forgetPassphrase()
  await closeDatabase()
  console.log(
    'The passphrase is gone, and all who came in by it are signed out. Paired phones stay. Set a new one under Workshop.',
  )
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}
