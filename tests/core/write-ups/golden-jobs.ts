import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { exactly } from '#core/time/span'
import type { Instant } from '#core/units'
import {
  bareFacts,
  journal,
  local,
  paintedBookcase,
  photo,
  piece,
  product,
  sideboardAndBench,
  step,
} from './jobs.ts'
import { uncommonJobs } from './uncommon-jobs.ts'

/** A made-up job whose write-ups are kept as text files beside this one, and the day on which they are written. */
export type GoldenJob = {
  readonly job: Journal
  readonly now: Instant
  readonly settings?: WorkshopSettings
}

const hardOil = product(
  'hard-oil',
  'Hard oil, clear, satin',
  'other',
  'oil-alkyd',
  { recoatMinutes: 720, cureDays: 14 },
)

/** Stripped to the wood and oiled; its age is known, and how it is known. */
const oiledTable = journal(
  'Drop-leaf table',
  [
    piece('table', 'drop-leaf table', ['top', 'legs'], {
      widthMillimetres: 1065,
      depthMillimetres: 915,
      heightMillimetres: 735,
      material: 'oak',
      style: 'barley-twist',
      age: '1930s',
      ageKnownBy: "the maker's label under the top",
      flaws:
        'An old ring mark near the middle of the top, faint after sanding\nOne leaf hangs 2 mm low',
    }),
  ],
  [
    step('clean', 'clean', 'table-top table-legs', '2026-05-02T09:00', {
      note: 'Lead test by a laboratory: none found in the old varnish.',
    }),
    step('strip', 'strip', 'table-top table-legs', '2026-05-02T10:00', {
      productId: 'stripper',
    }),
    step('sand1', 'sand', 'table-top table-legs', '2026-05-04T10:00', {
      grit: 120,
    }),
    step('sand2', 'sand', 'table-top table-legs', '2026-05-04T14:00', {
      grit: 180,
    }),
    step('oil1', 'coat', 'table-top:1 table-legs:1', '2026-05-05T10:00', {
      productId: 'hard-oil',
      method: 'wipe',
    }),
    step('oil2', 'coat', 'table-top:2 table-legs:2', '2026-05-06T10:00', {
      productId: 'hard-oil',
      method: 'wipe',
    }),
  ],
  [product('stripper', 'Gel stripper', 'stripper', 'paste'), hardOil],
  {
    finishedAt: local('2026-05-07T10:00'),
    askingPriceMinor: 29_500,
    collection: 'Collect from the workshop; it comes apart and fits in a car.',
  },
)

const tables = ['large', 'middle', 'small'] as const

/** Three tables of one kind, told apart by their names. */
const nestOfThree = journal(
  'Nest of three tables',
  tables.map((name, index) =>
    piece(name, 'side table', ['top', 'legs'], {
      name: `${name} table`,
      widthMillimetres: 560 - 80 * index,
      depthMillimetres: 380 - 50 * index,
      heightMillimetres: 500 - 50 * index,
      material: 'beech',
      age: 'about 1975',
      ageKnownBy: 'the family it came from',
      flaws: index === 1 ? 'a chip on one foot, filled and painted' : 'none',
    }),
  ),
  [
    step(
      'scuff',
      'scuff',
      tables.map((name) => `${name}-top ${name}-legs`).join(' '),
      '2026-08-10T10:00',
      { grit: 220 },
    ),
    step(
      'c1',
      'coat',
      tables.map((name) => `${name}-legs:1`).join(' '),
      '2026-08-11T10:00',
      { productId: 'sage', method: 'spray' },
    ),
    step(
      'c2',
      'coat',
      tables.map((name) => `${name}-legs:2`).join(' '),
      '2026-08-11T16:00',
      { productId: 'sage', method: 'spray' },
    ),
    step(
      's1',
      'seal',
      tables.map((name) => `${name}-top:1`).join(' '),
      '2026-08-12T10:00',
      { productId: 'clear', method: 'brush' },
    ),
  ],
  [
    product(
      'sage',
      'Waterborne enamel, sage green, eggshell',
      'paint',
      'waterborne-acrylic',
      { cureDays: 21 },
    ),
    product(
      'clear',
      'Waterborne clear, matt',
      'clear coat',
      'waterborne-acrylic',
      { cureDays: 14 },
    ),
  ],
  {
    finishedAt: local('2026-08-13T10:00'),
    askingPriceMinor: 12_000,
    collection: 'Delivery within ten miles can be arranged.',
  },
)

/** Flaws, each with a photo of it; sealed with wax, its drawers lined. */
const waxedChest = {
  ...journal(
    'Chest with its flaws',
    [
      piece('chest', 'Chest of drawers', ['body', 'top', 'drawers'], {
        widthMillimetres: 965,
        depthMillimetres: 480,
        heightMillimetres: 1010,
        material: 'pine',
        style: 'country',
        age: '2004',
        ageKnownBy: 'a date stamped inside the carcass',
        hardware: 'Its own knobs, cleaned; one is a replacement.',
        liner: 'removable',
        flaws: [
          'Two knots show through the paint on the left side.',
          'The bottom drawer sticks in damp weather',
          'A faint smell of smoke inside',
        ].join('\n'),
      }),
    ],
    [
      step('off', 'hardware', 'chest-body', '2026-06-01T09:00'),
      step('clean', 'clean', 'chest-body chest-top', '2026-06-01T09:30'),
      step('repair', 'repair', 'chest-drawers', '2026-06-01T11:00'),
      step('scuff', 'scuff', 'chest-body chest-top', '2026-06-01T12:00'),
      step('c1', 'coat', 'chest-body:1', '2026-06-02T09:00', {
        productId: 'ochre',
        method: 'brush',
      }),
      step('c2', 'coat', 'chest-body:2', '2026-06-03T09:00', {
        productId: 'ochre',
        method: 'roller',
      }),
      step('wax', 'wax', 'chest-body:1 chest-top:1', '2026-06-05T09:00', {
        productId: 'wax',
        method: 'wipe',
      }),
      step('liner', 'liner', 'chest-drawers', '2026-06-20T09:00', {
        productId: 'paper',
      }),
    ],
    [
      product('ochre', 'Mineral paint, ochre, matt', 'paint', 'other', {
        cureDays: 21,
      }),
      product('wax', 'Clear wax', 'wax', 'wax', { cureDays: 7 }),
      product('paper', 'Drawer paper, small check', 'paper', 'paste'),
    ],
    {
      finishedAt: local('2026-06-21T10:00'),
      askingPriceMinor: 26_000,
      collection: 'Collection only, ground floor, two people to lift',
    },
  ),
  photos: [
    photo('front', 'after', ['chest-body', 'chest-top'], { view: 'front' }),
    photo('inside', 'after', ['chest-drawers'], { view: 'inside' }),
    photo('knots', 'after', ['chest-body'], {
      flaw: 'two knots show through the paint on the left side',
    }),
    photo('runner', 'progress', ['chest-drawers'], {
      flaw: 'The bottom drawer sticks in damp weather',
    }),
    photo('scratch', 'after', ['chest-top'], {
      flaw: 'a short scratch on the top, near the back',
    }),
  ],
}

/** Old paint painted over, nothing tested. */
const oldWardrobe = journal(
  'Hall wardrobe',
  [
    piece('wardrobe', 'wardrobe', ['body', 'doors'], {
      widthMillimetres: 1220,
      depthMillimetres: 560,
      heightMillimetres: 1980,
      material: 'painted softwood, some of it old plywood',
      age: 'about 1900',
      ageKnownBy: 'the way its joints are made',
      flaws: 'none',
      hardware: 'new hinges, the old lock without its key',
    }),
  ],
  [
    step('scuff', 'scuff', 'wardrobe-body wardrobe-doors', '2026-03-10T10:00'),
    step(
      'p1',
      'prime',
      'wardrobe-body:1 wardrobe-doors:1',
      '2026-03-11T10:00',
      {
        productId: 'block',
        method: 'roller',
      },
    ),
    step('c1', 'coat', 'wardrobe-body:1 wardrobe-doors:1', '2026-03-12T10:00', {
      productId: 'cream',
      method: 'roller',
    }),
    step('c2', 'coat', 'wardrobe-body:2 wardrobe-doors:2', '2026-03-13T10:00', {
      productId: 'cream',
      method: 'roller',
    }),
  ],
  [
    product('block', 'Shellac primer', 'primer', 'shellac', { cureDays: 3 }),
    product('cream', 'Oil enamel, cream, gloss', 'paint', 'oil-alkyd', {
      cureDays: 30,
    }),
  ],
  {
    finishedAt: local('2026-03-14T10:00'),
    askingPriceMinor: 34_000,
    collection: 'by arrangement; it does not come apart',
  },
)

/** Ordered by a client, so nothing is asked for it in public. */
const commissionedDesk = journal(
  'Desk for a study',
  [
    piece('desk', 'desk', ['body', 'top', 'drawer fronts'], {
      widthMillimetres: 1372,
      depthMillimetres: 686,
      heightMillimetres: 762,
      material: 'mahogany veneer',
      age: '2010',
      ageKnownBy: "the client's receipt",
      flaws: 'A veneer patch on the right edge of the top, colour matched',
    }),
  ],
  [
    step(
      'clean',
      'clean',
      'desk-body desk-top desk-drawer-fronts',
      '2026-09-01T09:00',
      {
        productId: 'soap',
      },
    ),
    step('patch', 'repair', 'desk-top', '2026-09-01T13:00', {
      productId: 'glue',
      note: 'Veneer patch let in at the right edge.',
    }),
    step('sand', 'sand', 'desk-top', '2026-09-02T10:00', { grit: 180 }),
    step('scuff', 'scuff', 'desk-body desk-drawer-fronts', '2026-09-02T11:00', {
      grit: 220,
    }),
    step('stain', 'stain', 'desk-top:1', '2026-09-03T10:00', {
      productId: 'stain',
      method: 'wipe',
    }),
    step('c1', 'coat', 'desk-body:1 desk-drawer-fronts:1', '2026-09-03T14:00', {
      productId: 'navy',
      method: 'spray',
      thinningPercent: 5,
    }),
    step('c2', 'coat', 'desk-body:2 desk-drawer-fronts:2', '2026-09-04T10:00', {
      productId: 'navy',
      method: 'spray',
      thinningPercent: 5,
    }),
    step('s1', 'seal', 'desk-top:1', '2026-09-05T10:00', {
      productId: 'clear',
      method: 'brush',
    }),
    step('s2', 'seal', 'desk-top:2', '2026-09-06T10:00', {
      productId: 'clear',
      method: 'brush',
    }),
  ],
  [
    product('soap', 'Mild degreaser', 'cleaner', 'other'),
    product('glue', 'Wood glue', 'adhesive', 'other'),
    product('stain', 'Gel stain, red mahogany', 'stain', 'gel-stain', {
      cureDays: 3,
    }),
    product(
      'navy',
      'Waterborne enamel, navy, satin',
      'paint',
      'waterborne-alkyd',
      {
        cureDays: 30,
      },
    ),
    product(
      'clear',
      'Waterborne clear, satin',
      'clear coat',
      'waterborne-acrylic',
      {
        cureDays: 21,
      },
    ),
  ],
  {
    client: 'the owner of the study',
    brief: 'Body and drawer fronts navy; keep the top wood; patch the edge.',
    finishedAt: local('2026-09-07T10:00'),
  },
)

const chairClear = product(
  'clear',
  'oil varnish, gloss',
  'clear coat',
  'oil-alkyd',
  { cureDays: 7 },
)

/** Two chairs that share a kind, US units; the last coat ends at 23:30 in New York, which is the next day in London. */
const twoChairs = journal(
  'Dining chairs',
  [
    piece('a', 'dining chair', ['frame', 'seat'], {
      name: 'Chair one',
      widthMillimetres: 457,
      heightMillimetres: 914,
      material: 'maybe beech',
      age: '2015',
      ageKnownBy: 'a shop label',
      flaws: 'none',
    }),
    piece('b', 'dining chair', ['frame', 'seat'], {
      name: 'Chair two',
      age: '2015',
    }),
  ],
  [
    step('c1', 'coat', 'a-frame:1 b-frame:1', '2026-07-01T10:00', {
      productId: 'clear',
      method: 'brush',
    }),
    step('c2', 'coat', 'a-frame:2', undefined, {
      productId: 'clear',
      method: 'brush',
      startedAt: local('2026-07-03T23:30', 'America/New_York'),
    }),
  ],
  [chairClear],
  { askingPriceMinor: 8000 },
)

/** The last coat is dated by a camera whose clock nobody has checked. */
const uncheckedStool: Journal = {
  ...journal(
    'Kitchen stool',
    [
      piece('stool', 'stool', ['seat', 'legs'], {
        widthMillimetres: 340,
        depthMillimetres: 340,
        heightMillimetres: 620,
        material: 'ash',
        age: '1998',
        ageKnownBy: 'a date pencilled under the seat',
        flaws: 'none',
      }),
    ],
    [
      step('c1', 'coat', 'stool-seat:1 stool-legs:1', undefined, {
        productId: 'red',
        method: 'brush',
        photoIds: ['wet'],
      }),
    ],
    [
      product('red', 'Waterborne enamel, barn red, gloss', 'paint', 'other', {
        cureDays: 30,
      }),
    ],
    {
      finishedAt: local('2026-02-10T10:00'),
      askingPriceMinor: 4000,
      collection: 'From the workshop, or by post at cost.',
    },
  ),
  photos: [
    photo('wet', 'progress', ['stool-seat', 'stool-legs'], {
      stepId: 'c1',
      cameraId: 'pocket',
      basis: 'zone',
      taken: exactly(local('2026-02-09T15:00')),
    }),
  ],
  cameras: [{ id: 'pocket', name: 'Pocket camera' }],
}

/** By the name of their file. */
export const goldenJobs: Readonly<Record<string, GoldenJob>> = {
  'paint-only': { job: paintedBookcase, now: local('2027-06-01T12:00') },
  'strip-and-oil': { job: oiledTable, now: local('2026-05-10T12:00') },
  'set-of-three': { job: nestOfThree, now: local('2026-11-01T12:00') },
  'not-cured': { job: sideboardAndBench, now: local('2026-10-28T09:00') },
  flaws: { job: waxedChest, now: local('2026-06-22T12:00') },
  'old-paint': { job: oldWardrobe, now: local('2026-06-01T12:00') },
  commission: { job: commissionedDesk, now: local('2026-09-08T12:00') },
  'missing-facts': { job: bareFacts, now: local('2027-06-01T12:00') },
  'us-units': {
    job: twoChairs,
    now: local('2026-07-05T12:00'),
    settings: {
      name: 'Alder Yard',
      zone: 'America/New_York',
      currency: 'USD',
      units: 'us',
    },
  },
  'unchecked-clock': { job: uncheckedStool, now: local('2027-01-01T12:00') },
  ...uncommonJobs,
}
