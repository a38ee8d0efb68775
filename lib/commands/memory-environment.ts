/**
 * What keeps the server's memory small where the C library is glibc: with a pool of memory for each thread, as is its
 * custom, what decoded photos leave behind is spread over many pools and seldom given back.
 *
 * Source: mallopt(3), M_ARENA_MAX.
 */
export const memoryEnvironment = { MALLOC_ARENA_MAX: '2' } as const
