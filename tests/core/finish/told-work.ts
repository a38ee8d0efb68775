import type { RuleFinding } from '#core/finish/judge-finish'
import { judgeFinish } from '#core/finish/judge-finish'
import type { RuleId } from '#core/finish/finish-rule'
import type { Journal, Piece, Step } from '#core/journal/journal'
import type { Product } from '#core/shelf/product'
import { addMinutes } from '#core/units'
import { journalOf, utc } from '../timeline/journal-of'

/** When the work of these tests begins. */
export const morning = utc('2026-10-22T08:00:00Z')

const shelf = (
  name: string,
  category: Product['category'],
  chemistry: Product['chemistry'],
  label: Product['label'] = {},
): Product => ({ id: name, name, category, chemistry, label })

/** Products by kind, with the labels that the rules read. */
export const kinds = {
  enamel: shelf('waterborne enamel, moss', 'paint', 'waterborne-acrylic', {
    recoatMinutes: 60,
    handleMinutes: 480,
    cureDays: 21,
    maxThinningPercent: 5,
  }),
  paint: shelf('flat wall paint, slate', 'paint', 'waterborne-acrylic'),
  white: shelf('waterborne paint, white', 'paint', 'waterborne-acrylic'),
  oilPaint: shelf('oil paint, red', 'paint', 'oil-alkyd', { cureDays: 7 }),
  primer: shelf('bonding primer', 'primer', 'waterborne-acrylic'),
  blocker: shelf('stain-blocking primer', 'primer', 'waterborne-acrylic'),
  shellac: shelf('shellac primer', 'primer', 'shellac'),
  clear: shelf('waterborne clear coat', 'clear coat', 'waterborne-acrylic'),
  oilClear: shelf('oil varnish', 'clear coat', 'oil-alkyd'),
  clearShellac: shelf('clear dewaxed shellac', 'clear coat', 'shellac'),
  lacquer: shelf('lacquer', 'clear coat', 'lacquer'),
  aerosol: shelf('aerosol enamel', 'paint', 'aerosol'),
  stain: shelf('oil stain', 'stain', 'oil-stain'),
  gel: shelf('gel stain', 'stain', 'gel-stain'),
  waterStain: shelf('water stain', 'stain', 'water-stain'),
  conditioner: shelf('oil conditioner', 'conditioner', 'oil-stain'),
  waterConditioner: shelf(
    'water conditioner',
    'conditioner',
    'waterborne-acrylic',
  ),
  stripper: shelf('gel stripper', 'stripper', 'paste'),
  labelledStripper: shelf('soy stripper', 'stripper', 'paste', {
    recoatMinutes: 720,
  }),
  wax: shelf('paste wax', 'wax', 'wax'),
  wool: shelf('steel wool', 'abrasive', 'other'),
  brass: shelf('aerosol metallic', 'hardware finish', 'aerosol'),
} as const satisfies Record<string, Product>

/** A step of a told job: hours after the morning it began, its kind, and what it used. */
export type Told = {
  readonly at?: number
  readonly kind: Step['kind']
  readonly on?: string | readonly string[]
  readonly with?: keyof typeof kinds
} & Pick<
  Partial<Step>,
  'grit' | 'method' | 'note' | 'thinningPercent' | 'amount'
>

/** The job that these steps tell: a sideboard of beech, its old finish tested for lead and photographed. */
export function toldJob(
  steps: readonly Told[],
  more: {
    readonly surfaces?: readonly string[]
    readonly piece?: Partial<Piece>
    readonly job?: Partial<Journal['job']>
    readonly air?: Journal['air']
    readonly isUntested?: boolean
    readonly isUnseen?: boolean
  } = {},
): Journal {
  const surfaces = more.surfaces ?? ['body']
  const coats = new Map<string, number>()
  const made = journalOf({
    surfaces: { sideboard: surfaces },
    products: Object.values(kinds),
    air: more.air ?? [],
    steps: [
      ...(more.isUntested === true
        ? []
        : [
            {
              id: 'lead',
              kind: 'detail' as const,
              on: {},
              note: 'Lead test: laboratory result negative.',
            },
          ]),
      ...steps.map((told, i) => {
        const { at, kind, on, with: used, ...facts } = told
        const at2 =
          at === undefined
            ? {}
            : {
                startedAt: addMinutes(morning, at * 60),
                finishedAt: addMinutes(morning, at * 60),
              }
        return {
          id: `step ${i}`,
          kind,
          on: Object.fromEntries(
            (on === undefined ? surfaces.slice(0, 1) : [on].flat()).map(
              (name) => {
                if (used === undefined) return [name, null]
                const coat = (coats.get(`${name} ${kind}`) ?? 0) + 1
                coats.set(`${name} ${kind}`, coat)
                return [name, coat]
              },
            ),
          ),
          ...(used !== undefined && { productId: kinds[used].id }),
          ...at2,
          ...facts,
        }
      }),
    ],
  })
  const before = {
    id: 'before',
    sha256: '1'.repeat(64),
    fileName: 'before.jpg',
    width: 4000,
    height: 3000,
    role: 'before' as const,
    surfaceIds: [...surfaces],
    taken: { earliest: morning, at: morning, latest: morning },
    basis: 'offset' as const,
    warnings: [],
  }
  return {
    ...made,
    job: { ...made.job, ...more.job },
    photos: more.isUnseen === true ? made.photos : [before, ...made.photos],
    pieces: made.pieces.map((piece) => ({
      ...piece,
      material: 'solid beech',
      ...more.piece,
    })),
  }
}

/** The findings of one rule in a job. */
export function found(journal: Journal, rule: RuleId): readonly RuleFinding[] {
  return judgeFinish(journal).filter((finding) => finding.rule === rule)
}
