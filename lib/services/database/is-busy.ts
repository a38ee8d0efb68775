import 'server-only'
import { Prisma } from '#prisma-client'

/**
 * Whether an exception says that another program, such as a copying tool, held the database for longer than a write
 * waits. Nothing was written, and the same request may be sent again.
 */
export function isBusy(error: unknown): boolean {
  return (
    error instanceof Prisma.PrismaClientKnownRequestError &&
    error.code === 'P1008'
  )
}
