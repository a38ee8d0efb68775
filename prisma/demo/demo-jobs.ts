import type { z } from 'zod'
import type { jobFacts, newJob } from '#services/jobs/schema'
import type {
  newCost,
  newWork,
  ratesFacts,
  saleFacts,
} from '#services/money/schema'
import type { newStep } from '#services/steps/schema'
import type { DemoProduct } from './demo-products'

/** What a buyer is told of a piece. */
type Told = Pick<
  z.input<typeof jobFacts>['pieces'][number],
  'material' | 'flaws' | 'age' | 'ageKnownBy' | 'hardware' | 'liner'
>

/** A step of the demo; its times come from its photos. */
type DemoStep = Pick<
  z.input<typeof newStep>,
  'kind' | 'method' | 'grit' | 'amount' | 'note'
> & {
  /** What photos.json calls it. */
  readonly name: string
  /** Piece and surface: `sideboard: body`. */
  readonly on: readonly string[]
  readonly product?: DemoProduct
}

type DemoJob = {
  /** What photos.json calls it. */
  readonly name: string
  readonly job: z.input<typeof newJob>
  readonly startedAt: string
  readonly photosArrivedAt: string
  readonly finishedAt?: string
  readonly askingPriceMinor?: number
  readonly collection?: string
  readonly told: Readonly<Record<string, Told>>
  readonly steps: readonly DemoStep[]
  readonly books: {
    readonly costs: readonly z.input<typeof newCost>[]
    readonly work: readonly z.input<typeof newWork>[]
    /** Hands-on minutes where the photos of a step do not tell them. */
    readonly minutes: Readonly<Record<string, number>>
    readonly sale?: z.input<typeof saleFacts>
  }
}

/** What an hour and a sale cost in the invented workshop. */
export const demoRates: z.input<typeof ratesFacts> = {
  hourlyMinor: 1800,
  yearlyOverheadMinor: 240_000,
  productiveHours: 1200,
  feePercent: 8,
  setUpMinutes: 15,
  cleanUpMinutes: 20,
}

const bothBodies = ['sideboard: body', 'bench: body']
const top = ['sideboard: top']
const hardware = ['sideboard: hardware']

const sideboardAndBench: DemoJob = {
  name: 'job-a',
  startedAt: '2026-10-22T07:50:00Z',
  photosArrivedAt: '2026-10-27T10:42:00Z',
  finishedAt: '2026-10-27T10:45:00Z',
  askingPriceMinor: 48_500,
  collection:
    'Collected from the workshop by appointment; two people to lift the sideboard.',
  job: {
    title: 'Oak sideboard and bench',
    pieces: [
      {
        name: 'sideboard',
        kind: 'sideboard',
        dimensions: { width: 1370, depth: 460, height: 860 },
        surfaces: ['body', 'top', 'hardware', 'drawers'],
      },
      {
        name: 'bench',
        kind: 'bench',
        dimensions: { width: 920, depth: 320, height: 450 },
        surfaces: ['body'],
      },
    ],
  },
  told: {
    sideboard: {
      material: 'oak veneer on a solid oak frame',
      flaws: 'A small filled dent in the left side, visible up close.',
      age: 'about 1970',
      ageKnownBy: 'the family it came from bought it new',
      hardware: 'its own pulls and knobs, refinished',
      liner: 'removable',
    },
    bench: {
      material: 'solid oak',
      flaws: 'None',
      age: 'about 1970',
      ageKnownBy: 'bought together with the sideboard',
    },
  },
  steps: [
    {
      name: 'hardware-off',
      kind: 'hardware',
      on: hardware,
      method: 'hand',
      note: 'Pulls and knobs off, screws bagged with them.',
    },
    {
      name: 'scuff',
      kind: 'scuff',
      on: bothBodies,
      product: 'discs',
      method: 'hand',
      grit: 220,
      amount: { value: 4, unit: 'sheet' },
      note: 'P180, then P220, until no gloss was left. Dust wiped off.',
    },
    {
      name: 'prime 1',
      kind: 'prime',
      on: bothBodies,
      product: 'primer',
      method: 'roller',
      amount: { value: 310, unit: 'ml' },
    },
    {
      name: 'prime 2',
      kind: 'prime',
      on: bothBodies,
      product: 'primer',
      method: 'roller',
      amount: { value: 290, unit: 'ml' },
    },
    {
      name: 'coat 1, sideboard',
      kind: 'coat',
      on: ['sideboard: body'],
      product: 'teal',
      method: 'roller',
      amount: { value: 210, unit: 'ml' },
    },
    {
      name: 'coat 1, bench',
      kind: 'coat',
      on: ['bench: body'],
      product: 'teal',
      method: 'brush',
      amount: { value: 75, unit: 'ml' },
    },
    {
      name: 'coat 2, bench',
      kind: 'coat',
      on: ['bench: body'],
      product: 'teal',
      method: 'brush',
      amount: { value: 70, unit: 'ml' },
    },
    {
      name: 'coat 2, sideboard',
      kind: 'coat',
      on: ['sideboard: body'],
      product: 'teal',
      method: 'roller',
      amount: { value: 200, unit: 'ml' },
    },
    {
      name: 'strip',
      kind: 'strip',
      on: top,
      product: 'stripper',
      method: 'brush',
      amount: { value: 400, unit: 'ml' },
      note: 'Scraped off with a plastic scraper, then rinsed.',
    },
    {
      name: 'sand',
      kind: 'sand',
      on: top,
      product: 'discs',
      method: 'machine',
      grit: 150,
      amount: { value: 3, unit: 'sheet' },
    },
    {
      name: 'hardware 1',
      kind: 'hardware',
      on: hardware,
      product: 'aerosolPrimer',
      method: 'spray',
    },
    {
      name: 'hardware 2',
      kind: 'hardware',
      on: hardware,
      product: 'brass',
      method: 'spray',
      amount: { value: 0.4, unit: 'can' },
    },
    {
      name: 'condition',
      kind: 'condition',
      on: top,
      product: 'conditioner',
      method: 'wipe',
      amount: { value: 60, unit: 'ml' },
    },
    {
      name: 'stain 1',
      kind: 'stain',
      on: top,
      product: 'stain',
      method: 'wipe',
      amount: { value: 50, unit: 'ml' },
      note: 'Wiped even after a quarter of an hour. Rags laid flat outdoors to dry.',
    },
    {
      name: 'seal 1',
      kind: 'seal',
      on: top,
      product: 'clear',
      method: 'pad',
      amount: { value: 55, unit: 'ml' },
    },
    {
      name: 'seal 2',
      kind: 'seal',
      on: top,
      product: 'clear',
      method: 'pad',
      amount: { value: 50, unit: 'ml' },
    },
    {
      name: 'liner',
      kind: 'liner',
      on: ['sideboard: drawers'],
      product: 'paper',
      method: 'hand',
      amount: { value: 0.5, unit: 'roll' },
    },
  ],
  books: {
    costs: [
      { kind: 'acquisition', words: 'house clearance', eachMinor: 6000 },
      {
        kind: 'travel',
        words: 'miles, both ways',
        quantity: 22,
        eachMinor: 45,
      },
      {
        kind: 'consumables',
        words: 'roller sleeves',
        quantity: 3,
        eachMinor: 120,
      },
      { kind: 'consumables', words: 'masking tape', eachMinor: 395 },
    ],
    work: [
      { words: 'fetching', minutes: 75 },
      { words: 'photographs and listing', minutes: 40 },
    ],
    minutes: {
      'hardware-off': 20,
      scuff: 70,
      'prime 1': 45,
      'prime 2': 40,
      'coat 1, sideboard': 40,
      'coat 1, bench': 20,
      'coat 2, bench': 20,
      'coat 2, sideboard': 40,
      strip: 60,
      sand: 35,
      'hardware 1': 10,
      'hardware 2': 10,
      condition: 10,
      'stain 1': 25,
      'seal 1': 15,
      'seal 2': 15,
      liner: 45,
    },
    sale: { priceMinor: 46_500, feesPaidMinor: 3720 },
  },
}

const blanketBox: DemoJob = {
  name: 'job-b',
  startedAt: '2026-11-14T09:50:00Z',
  photosArrivedAt: '2026-11-15T12:06:00Z',
  job: {
    title: 'Pine blanket box',
    pieces: [
      {
        name: 'blanket box',
        kind: 'blanket box',
        dimensions: { width: 940, depth: 450, height: 480 },
        surfaces: ['body'],
      },
    ],
  },
  told: { 'blanket box': { material: 'solid pine', flaws: '' } },
  steps: [
    {
      name: 'scuff',
      kind: 'scuff',
      on: ['blanket box: body'],
      product: 'discs',
      method: 'hand',
      grit: 220,
      amount: { value: 2, unit: 'sheet' },
    },
    {
      name: 'prime 1',
      kind: 'prime',
      on: ['blanket box: body'],
      product: 'primer',
      method: 'brush',
      amount: { value: 180, unit: 'ml' },
    },
    {
      name: 'prime 2',
      kind: 'prime',
      on: ['blanket box: body'],
      product: 'primer',
      method: 'brush',
      amount: { value: 170, unit: 'ml' },
    },
    {
      name: 'coat 1',
      kind: 'coat',
      on: ['blanket box: body'],
      product: 'mustard',
      method: 'brush',
      amount: { value: 150, unit: 'ml' },
    },
  ],
  books: {
    costs: [{ kind: 'acquisition', words: 'given', eachMinor: 0 }],
    work: [],
    minutes: { scuff: 40, 'prime 1': 30, 'prime 2': 30, 'coat 1': 30 },
  },
}

/** The jobs of the invented workshop: one finished, one under way. */
export const demoJobs: readonly DemoJob[] = [sideboardAndBench, blanketBox]
