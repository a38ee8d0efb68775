/** One picture of a reveal: how much of the after is seen, 0 to 1, and for how long. */
export type RevealFrame = {
  readonly share: number
  readonly milliseconds: number
}

const steps = 25
const stepMilliseconds = 40

/**
 * A reveal from before to after: the before stands for a while, the line goes across in a second, gently at both ends, and
 * the after stands for longer. Common practice, no source.
 */
export const revealFrames: readonly RevealFrame[] = [
  { share: 0, milliseconds: 1_200 },
  ...Array.from({ length: steps - 1 }, (_, index) => {
    const time = (index + 1) / steps
    return {
      share: time * time * (3 - 2 * time),
      milliseconds: stepMilliseconds,
    }
  }),
  { share: 1, milliseconds: 2_000 },
]
