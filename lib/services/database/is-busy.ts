import 'server-only'
import { Prisma } from '#prisma-client'

/**
 * Whether an exception says that another program, such as a copying tool, held the database for longer than a write
 * waits. Nothing was written, and the same request may be sent again.
 */
export function isBusy(error: unknown): boolean {
  if (error instanceof Prisma.PrismaClientKnownRequestError) {
    return error.code === 'P1008'
  }
  // As the database itself says it, to what is written in plain SQL.
  return (
    error instanceof Error &&
    'code' in error &&
    typeof error.code === 'string' &&
    error.code.startsWith('SQLITE_BUSY')
  )
}
