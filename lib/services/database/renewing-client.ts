import 'server-only'
import type { Prisma, PrismaClient } from '#prisma-client'
import { diskTrouble } from '#services/database/disk-trouble'

type Work<T> = (transaction: Prisma.TransactionClient) => Promise<T>
type Options = Parameters<PrismaClient['$transaction']>[1]

/**
 * The same client, which works on once a disk that could not be written can be again. A connection that was opened
 * meanwhile reads only, for as long as it is open, and goes with the transaction that failed on it (`one-connection.ts`):
 * so a transaction whose first write failed for that reason, and which has done nothing but read, is tried once more.
 */
export function renewingClient(client: PrismaClient): PrismaClient {
  const transaction = async <T>(
    work: Work<T>,
    options?: Options,
  ): Promise<T> => {
    try {
      return await client.$transaction(work, options)
    } catch (error) {
      if (diskTrouble(error) !== 'read-only') throw error
      return client.$transaction(work, options)
    }
  }
  return new Proxy(client, {
    get: (target, name): unknown =>
      name === '$transaction' ? transaction : Reflect.get(target, name),
  })
}
