/** The kinds of step, in the order they usually come. */
export const stepKinds = [
  'clean',
  'repair',
  'strip',
  'sand',
  'scuff',
  'condition',
  'prime',
  'coat',
  'stain',
  'glaze',
  'seal',
  'wax',
  'hardware',
  'liner',
  'detail',
  'assemble',
] as const
export type StepKind = (typeof stepKinds)[number]

export const photoRoles = ['before', 'progress', 'after'] as const
export type PhotoRole = (typeof photoRoles)[number]

/** What a capture time rests on, best first; what the owner typed wins over all. */
export const timeBases = [
  'typed',
  'offset',
  'gps',
  'zone',
  'file',
  'arrival',
] as const
export type TimeBasis = (typeof timeBases)[number]

export const methods = [
  'brush',
  'roller',
  'pad',
  'spray',
  'wipe',
  'dip',
  'machine',
  'hand',
] as const
export type Method = (typeof methods)[number]

/** The usual names of surfaces; the owner may use any other. */
export const surfaceNames = [
  'body',
  'top',
  'doors',
  'drawer fronts',
  'legs',
  'hardware',
  'interior',
  'drawers',
] as const

/** The usual views; the owner may use any other. */
export const views = [
  'front',
  'left three-quarter',
  'right three-quarter',
  'top',
  'hardware',
  'inside',
] as const

/** How many characters the note of a step may have. */
export const longestNote = 2000
