/*
 * The rules are common practice of the trade, no source, unless a test names one: what is checked here is that each is
 * found where the work passed over it, and is silent where it did not. The work is told the way a person at the bench
 * would tell it.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type RuleId, ruleIds } from '#core/finish/finish-rule'
import { finishRules, judgeFinish } from '#core/finish/judge-finish'
import { addMinutes, instant } from '#core/units'
import { steadyAir } from '../air/any-air'
import { blanketBoxJob, sideboardJob } from '../timeline/demo-journal'
import { anyJournal } from '../write-ups/any-journal'
import { type Told, found, morning, toldJob } from './told-work'

type More = Parameters<typeof toldJob>[1]
type Case = {
  readonly rule: RuleId
  readonly says: string
  readonly broken: readonly [steps: readonly Told[], more?: More]
  readonly sound: Readonly<
    Record<string, readonly [steps: readonly Told[], more?: More]>
  >
  readonly strength?: 'must' | 'should' | 'mind'
}

const scuffed: readonly Told[] = [
  { at: 0, kind: 'clean' },
  { at: 2, kind: 'scuff', grit: 220 },
]
const stripped: readonly Told[] = [
  { at: 0, kind: 'strip', with: 'stripper', note: 'Scraped, then rinsed.' },
  { at: 30, kind: 'sand', grit: 150 },
]
const rags = 'Rags laid flat outdoors.'
const twoSurfaces = { surfaces: ['body', 'top'] }
const withHardware = { surfaces: ['body', 'hardware'] }
const air = (celsius: number, humidity: number) => ({
  air: steadyAir(celsius, humidity).map((one) => ({
    ...one,
    at: addMinutes(one.at, -2 * 1440),
  })),
})

const cases: readonly Case[] = [
  {
    rule: 'lead-test-first',
    says: 'an old finish scuffed with no test for lead',
    broken: [scuffed, { isUntested: true }],
    sound: {
      'a test that is written down': [scuffed],
      'wood that had no finish': [
        scuffed,
        { isUntested: true, piece: { material: 'solid ash, unfinished' } },
      ],
      'a piece made in 2005': [
        scuffed,
        { isUntested: true, piece: { material: 'beech, made in 2005' } },
      ],
      'its own coats sanded': [
        [
          { at: 1, kind: 'coat', with: 'enamel' },
          { at: 9, kind: 'sand', grit: 320 },
        ],
        { isUntested: true },
      ],
    },
    strength: 'must',
  },
  {
    rule: 'photograph-before',
    says: 'work on a piece that no photo shows as it was',
    broken: [scuffed, { isUnseen: true }],
    sound: { 'a before photo': [scuffed] },
  },
  {
    rule: 'oily-rags',
    says: 'an oil stain with no word of its rags',
    broken: [[...stripped, { at: 32, kind: 'stain', with: 'stain' }]],
    sound: {
      'rags in the note': [
        [...stripped, { at: 32, kind: 'stain', with: 'stain', note: rags }],
      ],
      'rags in the note of a step on the same day': [
        [
          ...stripped,
          { at: 31, kind: 'condition', with: 'conditioner' },
          { at: 32, kind: 'stain', with: 'stain', note: rags },
        ],
      ],
      'a water stain': [
        [...stripped, { at: 32, kind: 'stain', with: 'waterStain' }],
      ],
      'varnish from a brush': [
        [
          ...scuffed,
          { at: 3, kind: 'seal', with: 'oilClear', method: 'brush' },
        ],
      ],
    },
    strength: 'must',
  },
  {
    rule: 'clean-before-abrasion',
    says: 'a scuff with no cleaning before',
    broken: [[{ at: 0, kind: 'scuff' }]],
    sound: {
      'a cleaning before': [scuffed],
      'a cleaning that nothing tells the time of': [
        [{ kind: 'clean' }, { at: 0, kind: 'scuff' }],
      ],
      'a cleaning in the note': [
        [{ at: 0, kind: 'scuff', note: 'Degreased first, then scuffed.' }],
      ],
      'a scuff between coats': [
        [
          { at: 0, kind: 'coat', with: 'enamel' },
          { at: 9, kind: 'scuff' },
        ],
      ],
      'stripped wood': [stripped],
    },
  },
  {
    rule: 'dull-before-coat',
    says: 'a primer over gloss',
    broken: [
      [
        { at: 0, kind: 'clean' },
        { at: 3, kind: 'prime', with: 'primer' },
      ],
    ],
    sound: {
      'a scuff before': [
        [...scuffed, { at: 3, kind: 'prime', with: 'primer' }],
      ],
      'stripped wood': [
        [...stripped, { at: 32, kind: 'prime', with: 'primer' }],
      ],
      'a scuff that nothing tells the time of': [
        [{ kind: 'scuff' }, { at: 3, kind: 'prime', with: 'primer' }],
      ],
      'a fresh coat of wax': [[{ at: 3, kind: 'wax', with: 'wax' }]],
    },
  },
  {
    rule: 'hardware-off-first',
    says: 'a coat beside hardware that never came off',
    broken: [
      [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
      withHardware,
    ],
    sound: {
      'hardware off': [
        [
          { at: 0, kind: 'hardware', on: 'hardware' },
          ...scuffed,
          { at: 3, kind: 'coat', with: 'enamel' },
        ],
        withHardware,
      ],
      'a piece without hardware': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'no-skipped-grit',
    says: 'P80 followed by P150',
    broken: [
      [
        { at: 0, kind: 'sand', grit: 80 },
        { at: 1, kind: 'sand', grit: 150 },
      ],
    ],
    sound: {
      'P80, P120, P180': [
        [
          { at: 0, kind: 'sand', grit: 80 },
          { at: 1, kind: 'sand', grit: 120 },
          { at: 2, kind: 'sand', grit: 180 },
        ],
      ],
      'the grit between in the note': [
        [
          { at: 0, kind: 'sand', grit: 80 },
          { at: 1, kind: 'sand', grit: 150, note: 'P120, then P150.' },
        ],
      ],
      'a coat in between': [
        [
          { at: 0, kind: 'sand', grit: 80 },
          { at: 1, kind: 'prime', with: 'primer' },
          { at: 9, kind: 'sand', grit: 220 },
        ],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'no-return-to-coarse',
    says: 'P80 after P150',
    broken: [
      [
        { at: 0, kind: 'sand', grit: 150 },
        { at: 1, kind: 'sand', grit: 80 },
      ],
    ],
    sound: {
      'P80 after P150, and up again': [
        [
          { at: 0, kind: 'sand', grit: 150 },
          { at: 1, kind: 'sand', grit: 80 },
          { at: 2, kind: 'sand', grit: 120 },
          { at: 3, kind: 'sand', grit: 150 },
        ],
      ],
    },
  },
  {
    rule: 'no-coarse-machine-on-veneer',
    says: 'P80 by machine on veneer',
    broken: [
      [{ at: 0, kind: 'sand', grit: 80, method: 'machine' }],
      { piece: { material: 'walnut veneer' } },
    ],
    sound: {
      'P150 by machine': [
        [{ at: 0, kind: 'sand', grit: 150, method: 'machine' }],
        { piece: { material: 'walnut veneer' } },
      ],
      'P80 by hand': [
        [{ at: 0, kind: 'sand', grit: 80, method: 'hand' }],
        { piece: { material: 'walnut veneer' } },
      ],
      'solid wood': [[{ at: 0, kind: 'sand', grit: 80, method: 'machine' }]],
    },
    strength: 'must',
  },
  {
    rule: 'not-too-fine-for-stain',
    says: 'P320 before stain',
    broken: [
      [
        { at: 0, kind: 'sand', grit: 320 },
        { at: 2, kind: 'stain', with: 'waterStain' },
      ],
    ],
    sound: {
      P220: [
        [
          { at: 0, kind: 'sand', grit: 220 },
          { at: 2, kind: 'stain', with: 'waterStain' },
        ],
      ],
      'P320 before paint': [
        [
          { at: 0, kind: 'sand', grit: 320 },
          { at: 2, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'not-too-coarse-for-stain',
    says: 'P80 before a clear coat',
    broken: [
      [
        { at: 0, kind: 'sand', grit: 80 },
        { at: 2, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      P150: [
        [
          { at: 0, kind: 'sand', grit: 150 },
          { at: 2, kind: 'seal', with: 'clear' },
        ],
      ],
      'P80 before paint': [
        [
          { at: 0, kind: 'sand', grit: 80 },
          { at: 2, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'no-coarse-grit-between-coats',
    says: 'P120 between coats',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'prime', with: 'primer' },
        { at: 9, kind: 'sand', grit: 120 },
      ],
    ],
    sound: {
      P220: [
        [
          ...scuffed,
          { at: 3, kind: 'prime', with: 'primer' },
          { at: 9, kind: 'sand', grit: 220 },
        ],
      ],
      'P120 once the coats are stripped': [
        [
          ...scuffed,
          { at: 3, kind: 'prime', with: 'primer' },
          { at: 9, kind: 'strip' },
          { at: 40, kind: 'sand', grit: 120 },
        ],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'no-steel-wool-under-water',
    says: 'steel wool under a waterborne clear coat',
    broken: [
      [
        { at: 0, kind: 'scuff', with: 'wool' },
        { at: 2, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'steel wool under varnish': [
        [
          { at: 0, kind: 'scuff', with: 'wool' },
          { at: 2, kind: 'seal', with: 'oilClear', note: rags },
        ],
      ],
      'no steel wool': [
        [
          { at: 0, kind: 'scuff', note: 'Grey pad, no steel wool.' },
          { at: 2, kind: 'seal', with: 'clear' },
        ],
      ],
    },
  },
  {
    rule: 'rinse-after-strip',
    says: 'a coat after stripper that nobody rinsed off',
    broken: [
      [
        { at: 0, kind: 'strip', with: 'stripper', note: 'Scraped off.' },
        { at: 30, kind: 'prime', with: 'primer' },
      ],
    ],
    sound: {
      'rinsed in the note': [
        [...stripped, { at: 32, kind: 'prime', with: 'primer' }],
      ],
      'a cleaning between': [
        [
          { at: 0, kind: 'strip', with: 'stripper' },
          { at: 2, kind: 'clean' },
          { at: 30, kind: 'prime', with: 'primer' },
        ],
      ],
      'nothing on it yet': [[{ at: 0, kind: 'strip', with: 'stripper' }]],
      'a scraper alone': [
        [
          { at: 0, kind: 'strip', method: 'hand' },
          { at: 30, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'dry-after-strip',
    says: 'a coat three hours after stripping, with no time on the label',
    broken: [
      [
        { at: 0, kind: 'strip', with: 'stripper', note: 'Rinsed.' },
        { at: 3, kind: 'prime', with: 'primer' },
      ],
    ],
    sound: {
      'a day': [[...stripped, { at: 32, kind: 'prime', with: 'primer' }]],
      'a label, which the dry check holds it to': [
        [
          { at: 0, kind: 'strip', with: 'labelledStripper', note: 'Rinsed.' },
          { at: 3, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'dry-after-clean',
    says: 'a coat half an hour after washing',
    broken: [
      [
        { at: 0, kind: 'scuff' },
        { at: 1, kind: 'clean', note: 'Washed with sugar soap.' },
        { at: 1.5, kind: 'prime', with: 'primer' },
      ],
    ],
    sound: {
      'a tack cloth': [
        [
          { at: 0, kind: 'scuff' },
          { at: 1, kind: 'clean', note: 'Vacuumed, then a tack cloth.' },
          { at: 1.5, kind: 'prime', with: 'primer' },
        ],
      ],
      'two hours': [
        [
          { at: 0, kind: 'scuff' },
          { at: 1, kind: 'clean', note: 'Washed with sugar soap.' },
          { at: 3, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'protect-from-stripper',
    says: 'a top stripped above a painted body',
    broken: [
      [
        { at: 0, kind: 'coat', with: 'enamel', on: 'body' },
        { at: 5, kind: 'strip', with: 'stripper', on: 'top' },
      ],
      twoSurfaces,
    ],
    sound: {
      'the top stripped first': [
        [
          { at: 0, kind: 'strip', with: 'stripper', on: 'top' },
          { at: 5, kind: 'coat', with: 'enamel', on: 'body' },
        ],
        twoSurfaces,
      ],
      'both stripped together': [
        [
          { at: 0, kind: 'coat', with: 'enamel', on: 'body' },
          { at: 5, kind: 'strip', with: 'stripper', on: ['body', 'top'] },
        ],
        twoSurfaces,
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'condition-before-stain',
    says: 'a conditioner after the stain',
    broken: [
      [
        ...stripped,
        { at: 32, kind: 'stain', with: 'waterStain' },
        { at: 40, kind: 'condition', with: 'waterConditioner' },
      ],
    ],
    sound: {
      'a conditioner before': [
        [
          ...stripped,
          { at: 31, kind: 'condition', with: 'waterConditioner' },
          { at: 32, kind: 'stain', with: 'waterStain' },
        ],
      ],
    },
  },
  {
    rule: 'conditioner-like-stain',
    says: 'an oil stain over a water conditioner',
    broken: [
      [
        ...stripped,
        { at: 31, kind: 'condition', with: 'waterConditioner' },
        { at: 32, kind: 'stain', with: 'stain', note: rags },
      ],
    ],
    sound: {
      'oil over oil': [
        [
          ...stripped,
          { at: 31, kind: 'condition', with: 'conditioner', note: rags },
          { at: 32, kind: 'stain', with: 'stain', note: rags },
        ],
      ],
      'a washcoat of shellac': [
        [
          ...stripped,
          { at: 31, kind: 'condition', with: 'shellac' },
          { at: 32, kind: 'stain', with: 'stain', note: rags },
        ],
      ],
    },
  },
  {
    rule: 'conditioner-for-blotchy-wood',
    says: 'pine stained with no conditioner',
    broken: [
      [...stripped, { at: 32, kind: 'stain', with: 'waterStain' }],
      { piece: { material: 'solid pine' } },
    ],
    sound: {
      'a conditioner': [
        [
          ...stripped,
          { at: 31, kind: 'condition', with: 'waterConditioner' },
          { at: 32, kind: 'stain', with: 'waterStain' },
        ],
        { piece: { material: 'solid pine' } },
      ],
      'a gel': [
        [...stripped, { at: 32, kind: 'stain', with: 'gel', note: rags }],
        { piece: { material: 'solid pine' } },
      ],
      oak: [
        [...stripped, { at: 32, kind: 'stain', with: 'waterStain' }],
        { piece: { material: 'solid oak' } },
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'stain-on-bare-wood',
    says: 'stain over a primer',
    broken: [
      [
        ...stripped,
        { at: 32, kind: 'prime', with: 'primer' },
        { at: 40, kind: 'stain', with: 'waterStain' },
      ],
    ],
    sound: {
      'stripped wood': [
        [...stripped, { at: 32, kind: 'stain', with: 'waterStain' }],
      ],
      'a gel over a finish': [
        [...scuffed, { at: 32, kind: 'stain', with: 'gel', note: rags }],
      ],
      'a second stain': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'waterStain' },
          { at: 60, kind: 'stain', with: 'waterStain' },
        ],
      ],
    },
  },
  {
    rule: 'stain-dry-before-clear',
    says: 'a waterborne clear coat nine hours after an oil stain',
    broken: [
      [
        ...stripped,
        { at: 32, kind: 'stain', with: 'stain', note: rags },
        { at: 41, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'two days': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'stain', note: rags },
          { at: 80, kind: 'seal', with: 'clear' },
        ],
      ],
      'shellac between': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'stain', note: rags },
          { at: 41, kind: 'seal', with: 'shellac' },
          { at: 43, kind: 'seal', with: 'clear' },
        ],
      ],
      'a water stain': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'waterStain' },
          { at: 41, kind: 'seal', with: 'clear' },
        ],
      ],
    },
  },
  {
    rule: 'no-sanding-of-stain',
    says: 'a stain sanded before the clear coat',
    broken: [
      [
        ...stripped,
        { at: 32, kind: 'stain', with: 'waterStain' },
        { at: 60, kind: 'sand', grit: 320 },
        { at: 61, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'stained again after': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'waterStain' },
          { at: 60, kind: 'sand', grit: 320 },
          { at: 61, kind: 'stain', with: 'waterStain' },
        ],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'block-stains',
    says: 'a waterborne primer on bare oak',
    broken: [
      [...stripped, { at: 32, kind: 'prime', with: 'primer' }],
      { piece: { material: 'solid oak' } },
    ],
    sound: {
      'a stain-blocking primer': [
        [...stripped, { at: 32, kind: 'prime', with: 'blocker' }],
        { piece: { material: 'solid oak' } },
      ],
      'shellac first': [
        [
          ...stripped,
          { at: 32, kind: 'prime', with: 'shellac' },
          { at: 34, kind: 'coat', with: 'white' },
        ],
        { piece: { material: 'solid oak' } },
      ],
      'oak under its old finish and a dark paint': [
        [
          ...scuffed,
          { at: 3, kind: 'prime', with: 'primer' },
          { at: 9, kind: 'coat', with: 'enamel' },
        ],
        { piece: { material: 'solid oak' } },
      ],
      beech: [[...stripped, { at: 32, kind: 'prime', with: 'primer' }]],
      'no oak in it': [
        [...stripped, { at: 32, kind: 'prime', with: 'primer' }],
        { piece: { material: 'beech, no oak' } },
      ],
    },
    strength: 'should',
  },
  {
    rule: 'primer-first',
    says: 'primer over paint',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'paint' },
        { at: 20, kind: 'prime', with: 'primer' },
      ],
    ],
    sound: {
      'a scuff between': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'paint' },
          { at: 20, kind: 'scuff' },
          { at: 21, kind: 'prime', with: 'primer' },
        ],
      ],
    },
  },
  {
    rule: 'filler-primed',
    says: 'filler on primer, painted straight over',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'prime', with: 'primer' },
        { at: 9, kind: 'repair' },
        { at: 20, kind: 'coat', with: 'enamel' },
      ],
    ],
    sound: {
      'primed again': [
        [
          ...scuffed,
          { at: 3, kind: 'prime', with: 'primer' },
          { at: 9, kind: 'repair' },
          { at: 15, kind: 'prime', with: 'primer' },
          { at: 20, kind: 'coat', with: 'enamel' },
        ],
      ],
      'filled before the primer': [
        [
          ...scuffed,
          { at: 3, kind: 'repair' },
          { at: 9, kind: 'prime', with: 'primer' },
          { at: 20, kind: 'coat', with: 'enamel' },
        ],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'no-coat-over-wax',
    says: 'paint over wax',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'wax', with: 'wax' },
        { at: 30, kind: 'scuff' },
        { at: 31, kind: 'coat', with: 'enamel' },
      ],
    ],
    sound: {
      'wax over wax': [
        [
          { at: 3, kind: 'wax', with: 'wax' },
          { at: 30, kind: 'wax', with: 'wax' },
        ],
      ],
      'the wax washed off': [
        [
          { at: 3, kind: 'wax', with: 'wax' },
          { at: 28, kind: 'clean' },
          { at: 30, kind: 'scuff' },
          { at: 31, kind: 'coat', with: 'enamel' },
        ],
      ],
    },
    strength: 'must',
  },
  {
    rule: 'no-colour-over-clear',
    says: 'paint over a clear coat',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'seal', with: 'clear' },
        { at: 30, kind: 'coat', with: 'paint' },
      ],
    ],
    sound: {
      'a tie-coat of shellac': [
        [
          ...scuffed,
          { at: 3, kind: 'seal', with: 'clearShellac' },
          { at: 5, kind: 'coat', with: 'paint' },
        ],
      ],
      'a scuff between': [
        [
          ...scuffed,
          { at: 3, kind: 'seal', with: 'clear' },
          { at: 29, kind: 'scuff' },
          { at: 30, kind: 'coat', with: 'paint' },
        ],
      ],
    },
  },
  {
    rule: 'no-strong-solvent-over-weak',
    says: 'lacquer over oil paint',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'oilPaint', note: rags },
        { at: 99, kind: 'scuff' },
        { at: 100, kind: 'seal', with: 'lacquer' },
      ],
    ],
    sound: {
      'lacquer over shellac': [
        [
          ...scuffed,
          { at: 3, kind: 'prime', with: 'shellac' },
          { at: 9, kind: 'seal', with: 'lacquer' },
        ],
      ],
      'lacquer over stain': [
        [
          ...stripped,
          { at: 32, kind: 'stain', with: 'stain', note: rags },
          { at: 99, kind: 'seal', with: 'lacquer' },
        ],
      ],
    },
    strength: 'must',
  },
  {
    rule: 'no-water-over-young-oil',
    says: 'a waterborne coat over oil paint of yesterday',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'oilPaint', note: rags },
        { at: 27, kind: 'scuff' },
        { at: 28, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'ten days and a scuff': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'oilPaint', note: rags },
          { at: 240, kind: 'scuff' },
          { at: 243, kind: 'seal', with: 'clear' },
        ],
      ],
    },
  },
  {
    rule: 'barrier-over-lacquer',
    says: 'a waterborne clear coat over lacquer',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'seal', with: 'lacquer' },
        { at: 28, kind: 'scuff' },
        { at: 29, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'shellac between': [
        [
          ...scuffed,
          { at: 3, kind: 'seal', with: 'lacquer' },
          { at: 28, kind: 'seal', with: 'shellac' },
          { at: 30, kind: 'seal', with: 'clear' },
        ],
      ],
    },
  },
  {
    rule: 'no-clear-over-enamel',
    says: 'a clear coat over enamel on a body',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'enamel' },
        { at: 29, kind: 'seal', with: 'clear' },
      ],
    ],
    sound: {
      'on a top': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'enamel' },
          { at: 29, kind: 'seal', with: 'clear' },
        ],
        { surfaces: ['top'] },
      ],
      'over flat paint': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'paint' },
          { at: 29, kind: 'seal', with: 'clear' },
        ],
      ],
    },
    strength: 'mind',
  },
  {
    rule: 'no-oil-clear-over-pale',
    says: 'oil varnish over white',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'white' },
        { at: 60, kind: 'seal', with: 'oilClear', note: rags },
      ],
    ],
    sound: {
      'waterborne over white': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'white' },
          { at: 60, kind: 'seal', with: 'clear' },
        ],
      ],
    },
  },
  {
    rule: 'thin-within-label',
    says: 'an enamel thinned by 12 % where the label allows 5',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'coat', with: 'enamel', thinningPercent: 12 },
      ],
    ],
    sound: {
      'five percent': [
        [
          ...scuffed,
          { at: 3, kind: 'coat', with: 'enamel', thinningPercent: 5 },
        ],
      ],
    },
    strength: 'must',
  },
  {
    rule: 'warm-enough',
    says: 'a coat at 6 °C',
    broken: [[...scuffed, { at: 3, kind: 'coat', with: 'enamel' }], air(6, 50)],
    sound: {
      'at 20 °C': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
        air(20, 50),
      ],
      'no readings': [[...scuffed, { at: 3, kind: 'coat', with: 'enamel' }]],
    },
  },
  {
    rule: 'dry-enough-air',
    says: 'a coat at 90 %',
    broken: [
      [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
      air(20, 90),
    ],
    sound: {
      'at 60 %': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
        air(20, 60),
      ],
    },
  },
  {
    // ISO 8502-4: at 20 °C the 3 °C are used up at 82.9 % (see tests/reference).
    rule: 'above-dew-point',
    says: 'a coat within 3 °C of the dew point',
    broken: [
      [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
      air(20, 84),
    ],
    sound: {
      'four degrees above': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
        air(20, 75),
      ],
    },
  },
  {
    rule: 'hardware-back-when-hard',
    says: 'handles back four hours after a coat that asks eight',
    broken: [
      [
        { at: 0, kind: 'hardware', on: 'hardware' },
        { at: 3, kind: 'coat', with: 'enamel' },
        { at: 7, kind: 'hardware', on: 'hardware' },
      ],
      withHardware,
    ],
    sound: {
      'the next day': [
        [
          { at: 0, kind: 'hardware', on: 'hardware' },
          { at: 3, kind: 'coat', with: 'enamel' },
          { at: 30, kind: 'hardware', on: 'hardware' },
        ],
        withHardware,
      ],
      'handles that came off only then': [
        [
          { at: 3, kind: 'coat', with: 'enamel' },
          { at: 7, kind: 'hardware', on: 'hardware', note: 'Pulls off.' },
        ],
        withHardware,
      ],
      'a spray of their own': [
        [
          { at: 0, kind: 'hardware', on: 'hardware' },
          { at: 3, kind: 'coat', with: 'enamel' },
          { at: 7, kind: 'hardware', on: 'hardware', with: 'brass' },
        ],
        withHardware,
      ],
    },
  },
  {
    rule: 'drawers-back-when-hard',
    says: 'drawers back four hours after a coat beside them',
    broken: [
      [
        { at: 3, kind: 'coat', with: 'enamel' },
        { at: 7, kind: 'assemble', on: 'drawers' },
      ],
      { surfaces: ['body', 'drawers'] },
    ],
    sound: {
      'the next day': [
        [
          { at: 3, kind: 'coat', with: 'enamel' },
          { at: 30, kind: 'assemble', on: 'drawers' },
        ],
        { surfaces: ['body', 'drawers'] },
      ],
    },
  },
  {
    rule: 'line-when-cured',
    says: 'a drawer lined the day after its clear coat',
    broken: [
      [
        ...scuffed,
        { at: 3, kind: 'seal', with: 'clear' },
        { at: 30, kind: 'liner' },
      ],
    ],
    sound: {
      'eight days': [
        [
          ...scuffed,
          { at: 3, kind: 'seal', with: 'clear' },
          { at: 200, kind: 'liner' },
        ],
      ],
      'bare drawers': [[{ at: 30, kind: 'liner' }]],
    },
    strength: 'mind',
  },
  {
    rule: 'deliver-when-cured',
    says: 'a piece delivered a week after an enamel that cures in three',
    broken: [
      [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
      { job: { deliveredAt: addMinutes(morning, 7 * 1440) } },
    ],
    sound: {
      'after 22 days': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
        { job: { deliveredAt: addMinutes(morning, 22 * 1440) } },
      ],
      'finished, and still on the bench': [
        [...scuffed, { at: 3, kind: 'coat', with: 'enamel' }],
        { job: { finishedAt: addMinutes(morning, 1440) } },
      ],
    },
    strength: 'should',
  },
]

describe.each(cases)('$rule', ({ rule, says, broken, sound, strength }) => {
  test(`finds ${says}`, () => {
    const findings = found(toldJob(...broken), rule)
    expect(findings).toHaveLength(1)
    const [finding] = findings
    const last = broken[0].length - 1
    expect(finding?.stepId).toMatch(/^step \d+$/)
    expect(Number(finding?.stepId.slice(5))).toBeLessThanOrEqual(last)
    if (strength !== undefined) expect(finding?.strength).toBe(strength)
  })

  test.each(Object.keys(sound))('is silent with %s', (name) => {
    const [steps, more] = sound[name] ?? [[]]
    expect(found(toldJob(steps, more), rule)).toEqual([])
  })
})

test('every rule stands in the table once, and has a test here or in a test of its own', () => {
  expect(finishRules.map((rule) => rule.id).sort()).toEqual([...ruleIds].sort())
  const elsewhere: readonly RuleId[] = ['film-not-too-thick']
  expect([...cases.map((one) => one.rule), ...elsewhere].sort()).toEqual(
    [...ruleIds].sort(),
  )
})

test('every rule has a sentence and names its source, or says that it has none', () => {
  for (const rule of finishRules) {
    expect(rule.sentence).toMatch(/\.$/)
    expect(rule.source).not.toBe('')
  }
})

describe('how much a rule weighs', () => {
  test('skipping three grits weighs more than skipping two', () => {
    // P100 to P220 passes over P120, P150 and P180; P80 to P150 passes over P100 and P120 (ISO 6344).
    const jump = (from: number, to: number) =>
      found(
        toldJob([
          { at: 0, kind: 'sand', grit: from },
          { at: 1, kind: 'sand', grit: to },
        ]),
        'no-skipped-grit',
      )[0]
    expect(jump(100, 220)?.strength).toBe('should')
    expect(jump(80, 150)?.strength).toBe('mind')
    expect(jump(80, 150)?.reason).toContain('2.0 times finer')
  })

  test('P120 by machine on veneer is only worth a thought, P80 is not', () => {
    const by = (grit: number) =>
      found(
        toldJob([{ at: 0, kind: 'sand', grit, method: 'machine' }], {
          piece: { material: 'mahogany veneer' },
        }),
        'no-coarse-machine-on-veneer',
      )[0]?.strength
    expect(by(120)).toBe('mind')
    expect(by(60)).toBe('must')
  })

  test('knots under an old finish weigh less than bare ones', () => {
    const over = (before: readonly Told[]) =>
      found(
        toldJob([...before, { at: 40, kind: 'prime', with: 'primer' }], {
          piece: { material: 'solid pine' },
        }),
        'block-stains',
      )[0]?.strength
    expect(over(scuffed)).toBe('mind')
    expect(over(stripped)).toBe('should')
  })

  test('an old oil stain under paint bleeds whatever the wood', () => {
    expect(
      found(
        toldJob([
          ...stripped,
          { at: 32, kind: 'stain', with: 'stain', note: rags },
          { at: 99, kind: 'coat', with: 'paint' },
        ]),
        'block-stains',
      )[0],
    ).toMatchObject({ strength: 'should', reason: /oil stain/ })
  })

  test('delivered within three days it must not be, sold it is only to be told', () => {
    const steps: readonly Told[] = [
      ...scuffed,
      { at: 3, kind: 'coat', with: 'enamel' },
    ]
    const gone = (job: object) =>
      found(toldJob(steps, { job }), 'deliver-when-cured')[0]?.strength
    expect(gone({ deliveredAt: addMinutes(morning, 1440) })).toBe('must')
    expect(gone({ soldAt: addMinutes(morning, 1440) })).toBe('mind')
  })

  test('twelve percent of water without a limit on the label is worth a thought', () => {
    expect(
      found(
        toldJob([
          ...scuffed,
          { at: 3, kind: 'coat', with: 'paint', thinningPercent: 12 },
        ]),
        'thin-within-label',
      )[0]?.strength,
    ).toBe('mind')
  })
})

describe('what nothing is held against', () => {
  test('a wait between photos of a camera whose clock nobody has checked', () => {
    const journal = toldJob([
      { at: 0, kind: 'scuff' },
      { at: 1, kind: 'clean', note: 'Washed.' },
      { at: 1.5, kind: 'prime', with: 'primer' },
    ])
    const taken = (id: string, minutes: number) => ({
      id,
      sha256: '2'.repeat(64),
      fileName: `${id}.jpg`,
      width: 4000,
      height: 3000,
      role: 'progress' as const,
      surfaceIds: ['body'],
      cameraId: 'old',
      taken: {
        earliest: addMinutes(morning, minutes),
        at: addMinutes(morning, minutes),
        latest: addMinutes(morning, minutes),
      },
      basis: 'zone' as const,
      warnings: [],
    })
    const photographed = {
      ...journal,
      cameras: [{ id: 'old', name: 'Old camera' }],
      photos: [...journal.photos, taken('washing', 60)],
      steps: journal.steps.map((step) => {
        if (step.kind !== 'clean') return step
        return {
          id: step.id,
          kind: step.kind,
          note: step.note ?? '',
          surfaces: step.surfaces,
          photoIds: ['washing'],
          createdAt: step.createdAt,
        }
      }),
    }
    expect(found(journal, 'dry-after-clean')).toHaveLength(1)
    expect(found(photographed, 'dry-after-clean')).toEqual([])
  })

  test('a stripping that may have come before or after, since nothing tells its time', () => {
    expect(
      found(
        toldJob([
          { kind: 'strip' },
          { at: 2, kind: 'stain', with: 'waterStain' },
        ]),
        'stain-on-bare-wood',
      ),
    ).toEqual([])
  })

  test('a note that only says what is still to do', () => {
    expect(
      found(
        toldJob([{ at: 0, kind: 'scuff', note: 'Needs to be cleaned again.' }]),
        'clean-before-abrasion',
      ),
    ).toHaveLength(1)
  })
})

test('a step that nothing tells the time of is held against what is written down nowhere', () => {
  expect(
    found(toldJob([{ kind: 'scuff' }]), 'clean-before-abrasion'),
  ).toHaveLength(1)
  expect(
    found(
      toldJob([{ kind: 'clean' }, { kind: 'scuff' }]),
      'clean-before-abrasion',
    ),
  ).toEqual([])
})

describe('the answers of the owner', () => {
  const journal = toldJob([{ at: 0, kind: 'scuff' }])
  const answer = {
    rule: 'clean-before-abrasion' as const,
    surfaceId: 'body',
    stepId: 'step 0',
    answer: 'done' as const,
    answeredAt: instant(0),
  }

  test('stay with the finding that they answer', () => {
    expect(
      found({ ...journal, answers: [answer] }, 'clean-before-abrasion'),
    ).toMatchObject([{ answer }])
  })

  test.each([
    { ...answer, surfaceId: 'top' },
    { ...answer, stepId: 'step 9' },
    { ...answer, rule: 'oily-rags' as const },
  ])('go to no other finding', (other) => {
    expect(
      found({ ...journal, answers: [other] }, 'clean-before-abrasion')[0]
        ?.answer,
    ).toBeUndefined()
  })

  test('change nothing that is found', () => {
    const without = judgeFinish(journal)
    const answered = judgeFinish({ ...journal, answers: [answer] })
    expect(answered.map((one) => one.reason)).toEqual(
      without.map((one) => one.reason),
    )
  })
})

describe('the demo, which was a sound job but for what its plan says', () => {
  test('of the oil stain under its clear coat: nine hours where a day is the least', () => {
    expect(found(sideboardJob, 'no-coat-over-wax')).toEqual([])
    expect(found(sideboardJob, 'protect-from-stripper')).toMatchObject([
      { surface: { name: 'top' }, strength: 'mind' },
    ])
    expect(found(sideboardJob, 'stain-dry-before-clear')).toMatchObject([
      { surface: { name: 'top' }, reason: /9 h/ },
    ])
  })

  test('of the blanket box nothing but what was never written down', () => {
    expect(judgeFinish(blanketBoxJob).map((one) => one.rule)).toEqual([
      'lead-test-first',
      'photograph-before',
      'clean-before-abrasion',
    ])
  })
})

test('any journal can be judged, and what is found belongs to its steps and surfaces', () => {
  fc.assert(
    fc.property(anyJournal, (journal) => {
      for (const finding of judgeFinish(journal)) {
        const step = journal.steps.find((one) => one.id === finding.stepId)
        expect(step).toBeDefined()
        expect(finding.reason).not.toMatch(/undefined|NaN|Infinity/)
        expect(finding.advice).not.toBe('')
      }
    }),
    { numRuns: 50 },
  )
})

test('moving all times by a day changes nothing that is found', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...cases),
      fc.integer({ min: -400, max: 400 }),
      ({ rule, broken }, days) => {
        const [steps, more] = broken
        const moved = steps.map((step) =>
          step.at === undefined ? step : { ...step, at: step.at + days * 24 },
        )
        // Readings and deliveries do not move along here.
        fc.pre(more?.air === undefined && more?.job === undefined)
        expect(found(toldJob(moved, more), rule)).toHaveLength(1)
      },
    ),
  )
})
