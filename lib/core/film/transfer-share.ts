import type { Method } from '#core/journal/vocabulary'

/**
 * The share of a product that lands on the work, by how it is put on.
 *
 * Spraying varies most: 0.65 is the yardstick for low-pressure guns, and open work such as legs takes less.
 *
 * @returns 0 to 1; undefined where what lands says nothing of what stays: what is wiped on is wiped off again
 * Source: spray: the 65 % that California's air districts ask of low-pressure guns (quoted second-hand); brush, roller
 *   and pad: common practice, no source.
 */
export function transferShare(method: Method | undefined): number | undefined {
  switch (method) {
    case 'brush':
    case 'roller':
    case 'pad':
      return 0.95
    case 'spray':
      return 0.65
    case 'wipe':
    case 'dip':
    case 'machine':
    case 'hand':
    case undefined:
      return undefined
  }
}
