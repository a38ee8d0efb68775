import 'server-only'

/**
 * Gives the memory of pixels back that nobody holds any more, where the server was started so that it can.
 *
 * They lie outside of JavaScript's heap, where its own collection does not look for them: left alone, some 25 MB of every
 * photo wait for one of the next to arrive, and then the whole heap is searched while its sender waits. What is young is
 * searched in a millisecond or two.
 *
 * Source: node --expose-gc; V8's collection of its young generation.
 */
export function letPixelsGo(): void {
  globalThis.gc?.({ type: 'minor' })
}
