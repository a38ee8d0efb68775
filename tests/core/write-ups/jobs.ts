import type {
  Journal,
  Photo,
  Piece,
  Step,
  WorkshopSettings,
} from '#core/journal/journal'
import type { Label, Product } from '#core/shelf/product'
import { exactly } from '#core/time/span'
import { readLocal } from '#core/time/zone'
import { type Instant, instant } from '#core/units'

/** The invented workshop of the demo. */
export const alderYard: WorkshopSettings = {
  name: 'Alder Yard',
  zone: 'Europe/London',
  currency: 'GBP',
  units: 'metric',
}

/** A wall-clock time in the workshop. */
export function local(time: string, zone = 'Europe/London'): Instant {
  return readLocal(time, zone).at
}

/** A product of an invented kind. */
export function product(
  id: string,
  name: string,
  category: Product['category'],
  chemistry: Product['chemistry'],
  label: Label = {},
  rest: Partial<Product> = {},
): Product {
  return { id, name, category, chemistry, label, ...rest }
}

/** A step on surfaces, each `surface` or `surface:coat`, at a time in the workshop. */
export function step(
  id: string,
  kind: Step['kind'],
  on: string,
  time: string | undefined,
  rest: Partial<Step> = {},
): Step {
  return {
    id,
    kind,
    surfaces: on.split(' ').map((one) => {
      const [surfaceId = '', coat] = one.split(':')
      return coat === undefined
        ? { surfaceId }
        : { surfaceId, coat: Number(coat) }
    }),
    photoIds: [],
    createdAt: instant(0),
    ...(time !== undefined && { startedAt: local(time) }),
    ...rest,
  }
}

/** A photo that shows these surfaces. */
export function photo(
  id: string,
  role: Photo['role'],
  surfaceIds: readonly string[],
  rest: Partial<Photo> = {},
): Photo {
  return {
    id,
    sha256: id,
    fileName: `${id}.jpg`,
    width: 4,
    height: 3,
    role,
    surfaceIds,
    taken: exactly(instant(0)),
    basis: 'typed',
    warnings: [],
    ...rest,
  }
}

/** A piece with surfaces whose ids are `piece-surface`. */
export function piece(
  id: string,
  kind: string,
  surfaces: readonly string[],
  rest: Partial<Piece> = {},
): Piece {
  return {
    id,
    name: kind.charAt(0).toUpperCase() + kind.slice(1),
    kind,
    surfaces: surfaces.map((name) => ({
      id: `${id}-${name.replace(/ /g, '-')}`,
      name,
    })),
    ...rest,
  }
}

/** A job of these pieces, steps and products. */
export function journal(
  title: string,
  pieces: readonly Piece[],
  steps: readonly Step[],
  products: readonly Product[],
  job: Partial<Journal['job']> = {},
): Journal {
  return {
    job: { id: 'job', title, createdAt: instant(0), ...job },
    pieces,
    photos: [],
    steps,
    products,
    cameras: [],
    air: [],
  }
}

const primer = product(
  'primer',
  'Waterborne primer, grey',
  'primer',
  'waterborne-acrylic',
  {
    recoatMinutes: 120,
    cureDays: 7,
  },
  { pack: { amount: { value: 1, unit: 'l' }, priceMinor: 2400 } },
)
const teal = product(
  'teal',
  'Waterborne enamel, deep teal',
  'paint',
  'waterborne-alkyd',
  {
    recoatMinutes: 240,
    cureDays: 30,
  },
  {
    pack: { amount: { value: 946.352946, unit: 'ml' }, priceMinor: 3800 },
    link: 'https://alder-yard.example/teal',
  },
)
const stripper = product('stripper', 'Gel stripper', 'stripper', 'paste')
const conditioner = product(
  'conditioner',
  'Wood conditioner',
  'conditioner',
  'oil-alkyd',
)
const stain = product('stain', 'Oil stain, dark walnut', 'stain', 'oil-stain', {
  recoatMinutes: 1440,
  cureDays: 3,
})
const clear = product(
  'clear',
  'Waterborne clear, satin',
  'clear coat',
  'waterborne-acrylic',
  { recoatMinutes: 120, cureDays: 21 },
)
const brassPrimer = product(
  'metal-primer',
  'Aerosol metal primer',
  'primer',
  'aerosol',
  { cureDays: 1 },
)
const brass = product(
  'brass',
  'Aerosol enamel, brass',
  'hardware finish',
  'aerosol',
  { cureDays: 2 },
)
const paper = product('paper', 'Drawer paper, leaf pattern', 'paper', 'paste')

/** The demo's own job: painted bodies, a stripped, stained and clear-coated top, brass hardware, lined drawers. */
export const sideboardAndBench = journal(
  'Oak sideboard with its bench',
  [
    piece('sideboard', 'sideboard', ['body', 'top', 'hardware', 'drawers'], {
      widthMillimetres: 1520,
      depthMillimetres: 460,
      heightMillimetres: 830,
      material: 'oak veneer',
      flaws: 'a faint water mark on the left of the top, under the clear coat',
    }),
    piece('bench', 'bench', ['body'], {
      widthMillimetres: 1100,
      depthMillimetres: 350,
      heightMillimetres: 450,
      material: 'oak',
      flaws: 'one foot has an old repair',
    }),
  ],
  [
    step('off', 'hardware', 'sideboard-hardware:1', '2026-10-22T09:44'),
    step(
      'clean',
      'clean',
      'sideboard-body sideboard-top bench-body',
      '2026-10-22T10:00',
    ),
    step('scuff', 'scuff', 'sideboard-body bench-body', '2026-10-22T11:15', {
      grit: 180,
      method: 'hand',
    }),
    step(
      'prime1',
      'prime',
      'sideboard-body:1 bench-body:1',
      '2026-10-23T09:30',
      {
        productId: 'primer',
        method: 'spray',
        thinningPercent: 10,
        amount: { value: 0.1, unit: 'l' },
      },
    ),
    step(
      'prime2',
      'prime',
      'sideboard-body:2 bench-body:2',
      '2026-10-23T12:09',
      {
        productId: 'primer',
        method: 'spray',
        thinningPercent: 10,
        amount: { value: 0.2, unit: 'l' },
      },
    ),
    step('coat1', 'coat', 'sideboard-body:1', '2026-10-24T10:10', {
      productId: 'teal',
      method: 'spray',
      amount: { value: 587.626032406875, unit: 'ml' },
    }),
    step('coat1b', 'coat', 'bench-body:1', '2026-10-24T10:25', {
      productId: 'teal',
      method: 'spray',
    }),
    step('coat2b', 'coat', 'bench-body:2', '2026-10-24T11:03', {
      productId: 'teal',
      method: 'spray',
    }),
    step('coat2', 'coat', 'sideboard-body:2', '2026-10-24T11:51', {
      productId: 'teal',
      method: 'spray',
    }),
    step('strip', 'strip', 'sideboard-top', '2026-10-24T14:00', {
      productId: 'stripper',
    }),
    step('sand1', 'sand', 'sideboard-top', '2026-10-24T15:00', { grit: 120 }),
    step('sand2', 'sand', 'sideboard-top', '2026-10-24T16:20', { grit: 150 }),
    step('hp', 'hardware', 'sideboard-hardware:2', '2026-10-24T23:10', {
      productId: 'metal-primer',
      method: 'spray',
    }),
    step('hb', 'hardware', 'sideboard-hardware:3', '2026-10-25T08:40', {
      productId: 'brass',
      method: 'spray',
    }),
    step('cond', 'condition', 'sideboard-top:1', '2026-10-25T09:15', {
      productId: 'conditioner',
      method: 'wipe',
    }),
    step('stain', 'stain', 'sideboard-top:1', '2026-10-25T09:40', {
      productId: 'stain',
      method: 'wipe',
    }),
    step('seal1', 'seal', 'sideboard-top:1', '2026-10-25T19:01', {
      productId: 'clear',
      method: 'brush',
    }),
    step('seal2', 'seal', 'sideboard-top:2', '2026-10-25T22:12', {
      productId: 'clear',
      method: 'brush',
    }),
    step('liner', 'liner', 'sideboard-drawers', '2026-10-26T11:02', {
      productId: 'paper',
    }),
  ],
  [
    primer,
    teal,
    stripper,
    conditioner,
    stain,
    clear,
    brassPrimer,
    brass,
    paper,
  ],
  {
    finishedAt: local('2026-10-27T12:00'),
    askingPriceMinor: 45000,
    collection:
      'from the workshop by arrangement; two people and a van are needed',
  },
)

/** Paint only, one piece, everything known, long cured, a lead test noted. */
export const paintedBookcase = journal(
  'Painted bookcase',
  [
    piece('bookcase', 'Bookcase', ['body', 'shelves'], {
      widthMillimetres: 914,
      depthMillimetres: 457,
      heightMillimetres: 826,
      material: 'pine',
      flaws: 'Small dents on the left side, filled and painted over.',
    }),
  ],
  [
    step(
      'clean',
      'clean',
      'bookcase-body bookcase-shelves',
      '2026-02-27T09:00',
      { note: 'lead swab on the back edge: no colour change' },
    ),
    step(
      'scuff',
      'scuff',
      'bookcase-body bookcase-shelves',
      '2026-02-27T10:00',
      { grit: 180 },
    ),
    step(
      'c1',
      'coat',
      'bookcase-body:1 bookcase-shelves:1',
      '2026-02-28T10:00',
      { productId: 'white', method: 'brush' },
    ),
    step(
      'scuff2',
      'scuff',
      'bookcase-body bookcase-shelves',
      '2026-03-01T10:00',
      { grit: 320 },
    ),
    step(
      'c2',
      'coat',
      'bookcase-body:2 bookcase-shelves:2',
      '2026-03-02T10:00',
      { productId: 'white', method: 'brush' },
    ),
  ],
  [
    product(
      'white',
      'waterborne enamel, soft white',
      'paint',
      'waterborne-alkyd',
      { cureDays: 30 },
    ),
  ],
  {
    finishedAt: local('2026-03-03T10:00'),
    askingPriceMinor: 12050,
    collection: 'Ground floor, any weekday.',
  },
)

/** Hardly anything written down. */
export const bareFacts = journal(
  'Chest',
  [piece('chest', 'chest of drawers', ['body', 'drawer fronts'])],
  [
    step('prep', 'repair', 'chest-body', undefined),
    step('paint', 'coat', 'chest-body', undefined, { productId: 'paint' }),
  ],
  [product('paint', 'chalky paint', 'paint', 'waterborne-acrylic')],
)
