import type { GoldenJob } from './golden-jobs.ts'
import { journal, local, photo, piece, product, step } from './jobs.ts'
/** A piece of which nothing is known. */
const nothing: GoldenJob = {
  job: journal('A find', [piece('thing', 'dresser', ['body'])], [], []),
  now: local('2026-05-01T09:00'),
}
const twelveNames = [
  'carcass',
  'top',
  'upper doors',
  'lower doors',
  'drawer fronts',
  'legs',
  'back panel',
  'shelves',
  'interior',
  'hinges',
  'handles',
  'plinth',
]
const tid = (n: string) => `dresser-${n.replace(/ /g, '-')}`
const on = (names: readonly string[], coat?: number) =>
  names.map((n) => (coat ? `${tid(n)}:${coat}` : tid(n))).join(' ')
const paintedOnes = [
  'carcass',
  'upper doors',
  'lower doors',
  'drawer fronts',
  'legs',
  'plinth',
]
/** Twelve surfaces, finished in five ways. */
const twelve: GoldenJob = {
  job: {
    ...journal(
      'Welsh dresser',
      [
        piece('dresser', 'Welsh dresser', twelveNames, {
          material: 'Oak and pine',
          widthMillimetres: 1600,
          depthMillimetres: 500,
          heightMillimetres: 2000,
          age: 'Victorian',
          ageKnownBy: 'hand-cut dovetails',
          flaws: 'Woodworm holes in the back panel, treated',
          hardware: 'Original brass handles, polished',
          style: 'Country',
        }),
      ],
      [
        step('off', 'hardware', on(['hinges', 'handles']), '2026-03-01T09:00'),
        step('cl', 'clean', on(twelveNames), '2026-03-01T10:00', {
          productId: 'degreaser',
        }),
        step('fill', 'repair', on(['back panel', 'legs']), '2026-03-01T12:00', {
          productId: 'filler',
        }),
        step('sc', 'scuff', on(paintedOnes), '2026-03-02T10:00', { grit: 220 }),
        step('strip', 'strip', on(['top']), '2026-03-02T12:00', {
          productId: 'strip',
        }),
        step('sand', 'sand', on(['top']), '2026-03-03T09:00', { grit: 120 }),
        step('sand2', 'sand', on(['top']), '2026-03-03T10:00', { grit: 180 }),
        step('p1', 'prime', on(paintedOnes, 1), '2026-03-03T12:00', {
          productId: 'etch',
          method: 'roller',
        }),
        step('p2', 'prime', on(paintedOnes, 2), '2026-03-04T12:00', {
          productId: 'block',
          method: 'brush',
        }),
        step('c1', 'coat', on(paintedOnes, 1), '2026-03-05T12:00', {
          productId: 'blue',
          method: 'roller',
        }),
        step('c2', 'coat', on(paintedOnes, 2), '2026-03-06T12:00', {
          productId: 'blue',
          method: 'roller',
        }),
        step('w1', 'wax', on(['top'], 1), '2026-03-06T15:00', {
          productId: 'wax',
          method: 'wipe',
        }),
        step('in', 'coat', on(['interior', 'shelves'], 1), '2026-03-07T12:00', {
          productId: 'cream',
          method: 'brush',
        }),
        step('hn', 'hardware', on(['handles'], 1), '2026-03-07T14:00', {
          productId: 'polish',
          method: 'hand',
        }),
        step(
          'as',
          'assemble',
          on(['hinges', 'handles', 'upper doors', 'lower doors']),
          '2026-03-08T12:00',
        ),
      ],
      [
        product('degreaser', 'Mild degreaser', 'cleaner', 'other'),
        product('filler', 'Two-part filler', 'filler', 'other'),
        product('strip', 'Citrus stripper', 'stripper', 'paste'),
        product('etch', 'Etch primer', 'primer', 'lacquer', { cureDays: 2 }),
        product('block', 'Stain-blocking primer, white', 'primer', 'shellac', {
          cureDays: 3,
        }),
        product(
          'blue',
          'Self-levelling enamel, slate blue, satin',
          'paint',
          'waterborne-alkyd',
          { cureDays: 28 },
        ),
        product(
          'cream',
          'Chalk paint, old cream',
          'paint',
          'waterborne-acrylic',
          { cureDays: 21 },
        ),
        product('wax', 'Furniture wax, dark', 'wax', 'wax', { cureDays: 14 }),
        product('polish', 'Metal polish', 'other', 'other'),
      ],
      {
        finishedAt: local('2026-03-09T09:00'),
        askingPriceMinor: 89500,
        collection: 'From the yard, weekdays',
      },
    ),
    photos: [
      photo('b', 'before', [], { view: 'front' }),
      photo('a', 'after', [], { view: 'front' }),
      photo('a2', 'after', [tid('top')], { view: 'top' }),
      photo('a3', 'after', [tid('handles')]),
      photo('a4', 'after', [tid('interior'), tid('shelves')], {
        view: 'inside',
      }),
      photo('pr', 'progress', [tid('legs')], { stepId: 'p1' }),
      photo('fl', 'after', [tid('back panel')], {
        flaw: 'Woodworm holes in the back panel, treated',
      }),
    ],
  },
  now: local('2026-03-20T09:00'),
}
/** Stripped and waxed; nothing stands on it. */
const mirror: GoldenJob = {
  job: {
    ...journal(
      'Mirror frame',
      [
        piece('mirror', 'mirror', ['frame'], {
          material: 'Elm',
          widthMillimetres: 600,
          heightMillimetres: 900,
          age: '1920s',
          ageKnownBy: 'the seller',
          flaws: 'Old silvering, some black spots at the edge',
          style: 'Arts and Crafts',
        }),
      ],
      [
        step('s', 'strip', 'mirror-frame', '2026-04-01T10:00', {
          productId: 'strip',
        }),
        step('sd', 'sand', 'mirror-frame', '2026-04-01T14:00', {
          grit: 180,
          method: 'hand',
        }),
        step('sd2', 'sand', 'mirror-frame', '2026-04-01T15:00', {
          grit: 240,
          method: 'hand',
        }),
        step('w', 'wax', 'mirror-frame:1', '2026-04-02T10:00', {
          productId: 'wax',
          method: 'wipe',
        }),
        step('w2', 'wax', 'mirror-frame:2', '2026-04-03T10:00', {
          productId: 'wax',
          method: 'wipe',
        }),
      ],
      [
        product('strip', 'Gel stripper', 'stripper', 'paste'),
        product('wax', 'Beeswax polish', 'wax', 'wax', {}),
      ],
      { askingPriceMinor: 8500, finishedAt: local('2026-04-04T09:00') },
    ),
    photos: [
      photo('b', 'before', ['mirror-frame'], { view: 'front' }),
      photo('a', 'after', ['mirror-frame'], { view: 'front' }),
      photo('d', 'after', ['mirror-frame']),
    ],
  },
  now: local('2026-06-01T09:00'),
}
/** Metal, all of it sprayed from cans. */
const metal: GoldenJob = {
  job: {
    ...journal(
      'Filing cabinet',
      [
        piece('cab', 'filing cabinet', ['body', 'drawer fronts', 'handles'], {
          material: 'Steel',
          widthMillimetres: 470,
          depthMillimetres: 620,
          heightMillimetres: 1320,
          age: '1960s',
          ageKnownBy: 'a stamp inside',
          flaws: 'A dent in the left side',
        }),
      ],
      [
        step('c', 'clean', 'cab-body cab-drawer-fronts', '2026-06-01T09:00'),
        step('sc', 'scuff', 'cab-body cab-drawer-fronts', '2026-06-01T10:00', {
          grit: 240,
        }),
        step(
          'e',
          'prime',
          'cab-body:1 cab-drawer-fronts:1',
          '2026-06-01T12:00',
          { productId: 'etch', method: 'spray' },
        ),
        step(
          'c1',
          'coat',
          'cab-body:1 cab-drawer-fronts:1',
          '2026-06-01T15:00',
          {
            productId: 'y',
            method: 'spray',
            amount: { value: 2, unit: 'can' },
          },
        ),
        step(
          'c2',
          'coat',
          'cab-body:2 cab-drawer-fronts:2',
          '2026-06-01T16:00',
          { productId: 'y', method: 'spray' },
        ),
        step('h', 'hardware', 'cab-handles:1', '2026-06-02T10:00', {
          productId: 'brass',
          method: 'spray',
        }),
      ],
      [
        product('etch', 'Etch primer spray', 'primer', 'aerosol', {
          cureDays: 1,
        }),
        product(
          'y',
          'Spray enamel, mustard yellow, gloss',
          'paint',
          'aerosol',
          { cureDays: 7 },
        ),
        product(
          'brass',
          'Hardware spray, aged brass',
          'hardware finish',
          'aerosol',
          { cureDays: 3 },
        ),
      ],
      { askingPriceMinor: 14000, finishedAt: local('2026-06-03T09:00') },
    ),
    photos: [
      photo('b', 'before', [], { view: 'left-three-quarter' }),
      photo('a', 'after', [], { view: 'left-three-quarter' }),
      photo('k', 'after', ['cab-handles']),
      photo('dent', 'after', ['cab-body'], { flaw: 'A dent in the left side' }),
    ],
  },
  now: local('2026-06-05T09:00'),
}
/** For a child, from before the bans on lead. */
const toy: GoldenJob = {
  job: journal(
    'Toy chest',
    [
      piece('toy', 'toy chest', ['body', 'lid'], {
        material: 'pine',
        age: '1950s',
        ageKnownBy: 'family',
        widthMillimetres: 900,
        depthMillimetres: 450,
        heightMillimetres: 480,
        flaws: 'none',
      }),
    ],
    [
      step('sd', 'sand', 'toy-body toy-lid', '2026-05-01T10:00', { grit: 120 }),
      step('c1', 'coat', 'toy-body:1 toy-lid:1', '2026-05-02T10:00', {
        productId: 'red',
        method: 'brush',
      }),
      step('c2', 'coat', 'toy-body:2', '2026-05-03T10:00', {
        productId: 'red',
        method: 'brush',
      }),
      step('st', 'stain', 'toy-lid:1', '2026-05-03T12:00', {
        productId: 'stain',
        method: 'wipe',
      }),
    ],
    [
      product('red', 'Milk paint, barn red', 'paint', 'other', {
        cureDays: 14,
      }),
      product('stain', 'Water stain, Ash grey', 'stain', 'water-stain'),
    ],
    { askingPriceMinor: 6000, finishedAt: local('2026-05-04T09:00') },
  ),
  now: local('2026-05-05T09:00'),
}
const six = [1, 2, 3, 4, 5, 6]
/** A set that is also sold chair by chair. */
const chairs: GoldenJob = {
  job: journal(
    'Six chairs',
    six.map((n) =>
      piece(`c${n}`, 'Windsor chair', ['frame', 'seat'], {
        name: `Chair ${n}`,
        material: 'Elm and beech',
        age: '1930s',
        ageKnownBy: 'the maker’s stamp',
        flaws: n === 3 ? 'A crack in one spindle, glued' : 'none',
        widthMillimetres: 450,
        depthMillimetres: 430,
        heightMillimetres: 900,
      }),
    ),
    [
      step(
        'cl',
        'clean',
        six.map((n) => `c${n}-frame c${n}-seat`).join(' '),
        '2026-07-01T09:00',
      ),
      step('gl', 'repair', 'c3-frame', '2026-07-01T11:00', {
        productId: 'glue',
      }),
      step(
        'sc',
        'scuff',
        six.map((n) => `c${n}-frame`).join(' '),
        '2026-07-01T12:00',
      ),
      step(
        'c1',
        'coat',
        six.map((n) => `c${n}-frame:1`).join(' '),
        '2026-07-02T09:00',
        { productId: 'blk', method: 'spray' },
      ),
      step(
        'c2',
        'coat',
        six.map((n) => `c${n}-frame:2`).join(' '),
        '2026-07-02T15:00',
        { productId: 'blk', method: 'spray' },
      ),
      step(
        'o1',
        'coat',
        six.map((n) => `c${n}-seat:1`).join(' '),
        '2026-07-03T09:00',
        { productId: 'oil', method: 'wipe' },
      ),
    ],
    [
      product('glue', 'Hide glue', 'adhesive', 'other'),
      product(
        'blk',
        'Waterborne lacquer, black, satin',
        'paint',
        'waterborne-acrylic',
        { cureDays: 14 },
      ),
      product('oil', 'Danish oil', 'other', 'oil-alkyd', { cureDays: 7 }),
    ],
    {
      askingPriceMinor: 36000,
      finishedAt: local('2026-07-04T09:00'),
      collection:
        'sold separately at £60 each, or £330 for all six; collection by arrangement',
    },
  ),
  now: local('2026-07-20T09:00'),
}
/** Only the knobs were done. */
const knobs: GoldenJob = {
  job: {
    ...journal(
      'Dresser knobs',
      [
        piece('d', 'dresser', ['body', 'knobs'], {
          material: 'Mahogany',
          name: 'Dresser',
        }),
      ],
      [
        step('off', 'hardware', 'd-knobs', '2026-07-01T09:00'),
        step('p', 'hardware', 'd-knobs:1', '2026-07-01T10:00', {
          productId: 'pr',
          method: 'spray',
        }),
        step('b', 'hardware', 'd-knobs:2', '2026-07-01T12:00', {
          productId: 'br',
          method: 'spray',
        }),
        step('as', 'assemble', 'd-knobs', '2026-07-02T12:00'),
      ],
      [
        product('pr', 'Metal primer spray', 'primer', 'aerosol', {
          cureDays: 1,
        }),
        product(
          'br',
          'Metallic spray, antique brass',
          'hardware finish',
          'aerosol',
          { cureDays: 2 },
        ),
      ],
      {},
    ),
    photos: [
      photo('a', 'after', [], { view: 'front' }),
      photo('k', 'after', ['d-knobs']),
    ],
  },
  now: local('2026-07-20T09:00'),
}
/** Two pieces, each with two finishes, whose photos show views and nothing else. */
const stainClear: GoldenJob = {
  job: {
    ...journal(
      'Oak sideboard and bench',
      [
        piece('s', 'sideboard', ['body', 'top', 'knobs', 'drawers'], {
          material: 'oak, oak veneer',
          widthMillimetres: 1400,
          depthMillimetres: 450,
          heightMillimetres: 800,
          name: 'Sideboard',
        }),
        piece('be', 'bench', ['body', 'seat'], {
          material: 'oak',
          name: 'Bench',
        }),
      ],
      [
        step('cl', 'clean', 's-body s-top be-body be-seat', '2026-07-01T09:00'),
        step('sc', 'scuff', 's-body be-body', '2026-07-01T10:00'),
        step('p1', 'prime', 's-body:1 be-body:1', '2026-07-01T12:00', {
          productId: 'pa',
          method: 'spray',
        }),
        step('p2', 'prime', 's-body:2 be-body:2', '2026-07-01T15:00', {
          productId: 'pb',
          method: 'spray',
        }),
        step('g1', 'coat', 's-body:1 be-body:1', '2026-07-02T09:00', {
          productId: 'green',
          method: 'spray',
        }),
        step('g2', 'coat', 's-body:2 be-body:2', '2026-07-02T15:00', {
          productId: 'green',
          method: 'spray',
        }),
        step('st', 'stain', 's-top:1 be-seat:1', '2026-07-03T09:00', {
          productId: 'stain',
          method: 'wipe',
        }),
        step('cc', 'seal', 's-top:1 be-seat:1', '2026-07-04T09:00', {
          productId: 'clear',
          method: 'brush',
        }),
        step('cc2', 'seal', 's-top:2 be-seat:2', '2026-07-04T15:00', {
          productId: 'clear',
          method: 'brush',
        }),
        step('kn', 'hardware', 's-knobs:1', '2026-07-04T16:00', {
          productId: 'br',
          method: 'spray',
        }),
        step('li', 'liner', 's-drawers', '2026-07-05T16:00', {
          productId: 'paper',
        }),
      ],
      [
        product('pa', 'Etch primer spray', 'primer', 'aerosol'),
        product('pb', 'Waterborne primer', 'primer', 'waterborne-acrylic'),
        product(
          'green',
          'Waterborne enamel, deep green, satin',
          'paint',
          'waterborne-alkyd',
          { cureDays: 30 },
        ),
        product('stain', 'Gel stain, walnut', 'stain', 'gel-stain'),
        product(
          'clear',
          'Waterborne clear coat, satin',
          'clear coat',
          'waterborne-acrylic',
          { cureDays: 21 },
        ),
        product(
          'br',
          'Hardware spray, aged brass',
          'hardware finish',
          'aerosol',
        ),
        product('paper', 'Drawer paper', 'paper', 'other'),
      ],
      { finishedAt: local('2026-07-06T09:00'), askingPriceMinor: 42000 },
    ),
    photos: [
      photo('b', 'before', [], { view: 'front' }),
      photo('a1', 'after', [], { view: 'front' }),
      photo('a2', 'after', ['s-top'], { view: 'top' }),
      photo('a3', 'after', ['s-knobs'], { view: 'hardware' }),
      photo('a4', 'after', ['s-drawers'], { view: 'inside' }),
      photo('a5', 'after', ['be-body', 'be-seat']),
      photo('a6', 'after', ['s-body'], { view: 'left-three-quarter' }),
      photo('a7', 'after', [], { view: 'top' }),
      photo('a8', 'after', [], { view: 'hardware' }),
      photo('a9', 'after', [], { view: 'inside' }),
      photo('a10', 'after', []),
    ],
  },
  now: local('2026-07-20T09:00'),
}
/** Jobs of uncommon kinds, whose texts are kept as those of the others are. */
export const uncommonJobs: Readonly<Record<string, GoldenJob>> = {
  'nothing-known': nothing,
  'twelve-surfaces': twelve,
  'waxed-mirror': mirror,
  'metal-cabinet': metal,
  'toy-chest': toy,
  'six-chairs': chairs,
  'knobs-only': knobs,
  'two-finishes': stainClear,
}
