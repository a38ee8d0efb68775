import type { Step } from '#core/journal/journal'

type TypedTimes = Pick<Step, 'startedAt' | 'finishedAt'>

/** What photos would tell of a step that has none yet: only what was not written down, as `stepTimes` has it. */
export function noPhotosWords({ startedAt, finishedAt }: TypedTimes): string {
  return `No photos of this step yet. ${
    startedAt === undefined
      ? finishedAt === undefined
        ? 'The first one stamps when it began, the last when it ended.'
        : 'The first one stamps when it began; its end is typed and stays.'
      : finishedAt === undefined
        ? 'The last one stamps when it ended; its start is written down and stays.'
        : 'Its times are typed; photos that you add leave them as they are.'
  }`
}

/**
 * What there is to say of a step that is over, before another photo is put to it: only an end that was not typed moves
 * with a photo taken now.
 *
 * @param hasPhotos whether photos tell when it ended, where that was not typed
 * @param last its last moment, in words
 */
export function stepOverWords(
  { finishedAt }: TypedTimes,
  hasPhotos: boolean,
  last: string,
): string {
  if (finishedAt !== undefined) {
    return `This step ended ${last}. A photo of what came after it belongs to a new step.`
  }
  const stretch = 'A photo taken now would stretch it until now.'
  return hasPhotos
    ? `This step ended ${last}. ${stretch}`
    : `This step began ${last}, and nothing says yet when it ended. ${stretch}`
}
