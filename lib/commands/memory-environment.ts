/**
 * What keeps the server's memory small where the C library is glibc. With a pool of memory for each thread, as is its
 * custom, what decoded photos leave behind is spread over many pools; and once it has seen a large piece given back, it
 * takes the next ones from those pools as well, where they tear holes. Measured with 60 photos of 12 megapixels from two
 * phones: 343 to 367 MiB at most, 381 to 382 with the first setting alone.
 *
 * Source: mallopt(3), M_ARENA_MAX, M_MMAP_THRESHOLD, M_TRIM_THRESHOLD.
 */
export const memoryEnvironment = {
  MALLOC_ARENA_MAX: '2',
  MALLOC_MMAP_THRESHOLD_: '262144',
  MALLOC_TRIM_THRESHOLD_: '1048576',
} as const

/**
 * When the server's garbage is collected: once the heap has grown by half over what is alive. Left to itself V8 sees a
 * server that mostly waits and allows it a tenth: then every photo, whose bytes pass through JavaScript, has the whole heap
 * searched once or twice while its sender waits, some 40 ms each time. The young part is kept at a quarter of its usual
 * size, since it is by that size that V8 reckons how many bytes outside the heap it may leave lying. Measured with 100 photos
 * of 12 megapixels from two phones: 352 MiB at most, and 391 with half of that size, at which nobody waits less. Where the
 * heap may grow by three tenths alone, a photo that comes alone waits a tenth longer. Collecting by call while the server
 * rests makes it slower: that throws compiled code away too.
 *
 * The young part may be collected by call, which takes a millisecond or two (`let-pixels-go.ts`).
 *
 * Source: node --v8-options.
 */
export const collectionFlags = [
  '--heap-growing-percent=50',
  '--max-semi-space-size=4',
  '--expose-gc',
] as const
