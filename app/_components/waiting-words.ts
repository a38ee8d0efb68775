import { type Waiting, isSetAside } from '#core/queue/queue'
import { listOf } from '../_words'

/**
 * What waits on a phone that is not let in, in a sentence or two; empty when nothing does.
 *
 * @param once what the phone must be before anything goes out: paired, let in
 */
export function waitingWords(queue: readonly Waiting[], once: string): string {
  const stuck = queue.filter(isSetAside)
  const open = queue.filter((one) => !isSetAside(one))
  const said = [
    ...(open.length === 0
      ? []
      : [
          `${thingsOf(open)} ${open.length === 1 ? 'waits on this phone and goes' : 'wait on this phone and go'} out once it is ${once}.`,
        ]),
    ...(stuck.length === 0
      ? []
      : [
          `${thingsOf(stuck)} that could not be sent ${stuck.length === 1 ? 'is' : 'are'} kept on this phone.`,
        ]),
  ]
  return said.join(' ')
}

function thingsOf(queue: readonly Waiting[]): string {
  return listOf(
    (['photo', 'step', 'note'] as const).flatMap((kind) => {
      const { length } = queue.filter(({ request }) => request.kind === kind)
      return length === 0 ? [] : [`${length} ${kind}${length === 1 ? '' : 's'}`]
    }),
  )
}
