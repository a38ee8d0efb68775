import { expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import type { Timeline } from '#core/timeline/timeline'
import { minutes } from '#core/units'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import {
  alderYard,
  bareFacts,
  paintedBookcase,
  sideboardAndBench,
} from './jobs.ts'

const sideboardLane = {
  piece: { id: 'sideboard', name: 'Sideboard' },
  surface: { id: 'sideboard-body', name: 'body' },
  steps: [],
}

function gap(
  low: number,
  high: number,
  verdict: 'too-soon' | 'in-window',
  required: number,
) {
  return {
    purpose: 'recoat',
    elapsed: { low: minutes(low), high: minutes(high) },
    label: { min: minutes(120) },
    required: minutes(required),
    verdict,
    reason: '',
    advice: '',
  } as const
}

// The waits between the demo's own photos, by subtraction.
const timeline: Timeline = {
  lanes: [
    {
      ...sideboardLane,
      checks: [
        { ...gap(159, 159, 'in-window', 120), from: 'prime1', to: 'prime2' },
        { ...gap(100.9, 101.2, 'too-soon', 120), from: 'coat1', to: 'coat2' },
      ],
    },
    {
      piece: { id: 'bench', name: 'Bench' },
      surface: { id: 'bench-body', name: 'body' },
      steps: [],
      checks: [
        { ...gap(159, 159, 'in-window', 120), from: 'prime1', to: 'prime2' },
        { ...gap(130, 130, 'too-soon', 170), from: 'coat1b', to: 'coat2b' },
      ],
    },
    {
      ...sideboardLane,
      surface: { id: 'sideboard-top', name: 'top' },
      checks: [
        { ...gap(4320, 4335, 'in-window', 120), from: 'stain', to: 'seal1' },
      ],
    },
    {
      ...sideboardLane,
      surface: { id: 'sideboard-hardware', name: 'hardware' },
      checks: [
        { ...gap(630.5, 630.5, 'in-window', 120), from: 'hp', to: 'hb' },
      ],
    },
  ],
  warnings: [],
}

test('a viewer reads what it is, what went on it and how, with waits, size and cautions', () => {
  const { text, title } = writeVideoDescription({
    journal: sideboardAndBench,
    settings: alderYard,
    timeline,
  })
  expect(title).toBe('Oak sideboard with its bench')
  expect(text)
    .toBe(`An oak veneer sideboard and an oak bench, painted deep teal, with the top of the sideboard stained dark walnut and clear-coated in satin, and the hardware of the sideboard finished in brass. Work done: cleaning, scuffing, priming, painting, stripping, sanding, conditioning, staining, clear coating, lining and a new finish for the hardware.

Materials, in order of use
1. Waterborne primer, grey, 0.3 l
2. Waterborne enamel, deep teal (paint), at least 588 ml: https://alder-yard.example/teal
3. Gel stripper
4. Aerosol metal primer
5. Aerosol enamel, brass (hardware finish)
6. Wood conditioner
7. Oil stain, dark walnut
8. Waterborne clear, satin (clear coat)
9. Drawer paper, leaf pattern (liner)

How
Bodies (both): cleaned; scuffed with P180; primed with two sprayed coats of waterborne primer (grey), thinned with 10 parts to 100; painted with two sprayed coats of waterborne enamel in deep teal.
Sideboard (top): cleaned; stripped with gel stripper; sanded with P120 and P150; conditioned with one wiped-on coat of wood conditioner; stained with one wiped-on coat of oil stain in dark walnut; clear-coated with two brushed coats of waterborne clear (satin).
Sideboard (hardware): primed with one sprayed coat of aerosol metal primer; finished with one sprayed coat of aerosol enamel in brass.
Sideboard (drawers): lined with drawer paper (leaf pattern).

Waits, as they were
Bodies (both), from the first coat of primer to the second: 2 h 39 min.
Sideboard (body), from the first coat of paint to the second: 1 h 40 min to 1 h 41 min; the label asks for at least 2 h.
Bench (body), from the first coat of paint to the second: 2 h 10 min; in the air that day it needed at least 2 h 50 min.
Sideboard (top), from the stain to the first clear coat: 3 days.
Sideboard (hardware), from the primer to the finish: 10 h 30 min.

Sideboard: 152 x 46 x 83 cm (59 3/4 x 18 x 32 3/4 in), width x depth x height, at the widest.
Bench: 110 x 35 x 45 cm (43 1/4 x 13 3/4 x 17 3/4 in), width x depth x height, at the widest.

Safety
Stripper burns skin and eyes: wear gloves and goggles, keep the air moving, never mix products, and use none with methylene chloride.
Old finishes may contain lead (before 1978 in the US, 1992 in the UK): test before you sand, scrape, heat or strip.
Sanding dust harms the lungs: extract it at the tool and wear a mask.
Spraying: wear a fitted respirator made for the product (a dust mask does not stop vapour), ventilate, and keep flames and sparks away.
Rags wet with oil or oil stain can catch fire by themselves: lay them flat outdoors to dry, or put them under water in a lidded metal can.
Follow each product label, its safety data sheet and local rules.

#oakveneersideboard #sideboard #oakbench #bench #paintedsideboard`)
})

function withPaidLinks(ids: readonly string[]): Journal {
  return {
    ...sideboardAndBench,
    products: sideboardAndBench.products.map((one) =>
      ids.includes(one.id) ? { ...one, paidLink: true } : one,
    ),
  }
}

// FTC 16 CFR 255.0(f): clear and conspicuous; within the first hundred characters by common practice.
test('a paid link is disclosed before anything else, and marked where it stands', () => {
  const { text } = writeVideoDescription({
    journal: withPaidLinks(['teal', 'stripper']),
    settings: alderYard,
  })
  expect(text).toMatch(
    /^Ad: I may earn a commission from links marked \(ad\)\.\n\n/,
  )
  expect(text).toContain('https://alder-yard.example/teal (ad)\n')
  // A product without a link has nothing to mark.
  expect(text).toContain('3. Gel stripper\n')
})

test('a link that earns nothing is not called an ad', () => {
  expect(
    writeVideoDescription({ journal: sideboardAndBench, settings: alderYard })
      .text,
  ).not.toMatch(/\bad\b/i)
})

test('no paid link is left standing without its disclosure, however short the limit', () => {
  for (let limit = 0; limit < 3000; limit += 7) {
    const { text } = writeVideoDescription({
      journal: withPaidLinks(['teal']),
      settings: alderYard,
      limit,
    })
    expect(/\(ad\)\n/.test(text) && !text.startsWith('Ad: ')).toBe(false)
  }
})

test('only the hazards of the job are warned of', () => {
  const { text } = writeVideoDescription({
    journal: paintedBookcase,
    settings: alderYard,
  })
  expect(text).toContain('Sanding dust')
  expect(text).not.toMatch(/Stripper|Spraying|Rags/)
  const bare = writeVideoDescription({
    journal: bareFacts,
    settings: alderYard,
  })
  expect(bare.text).not.toMatch(/lead|Sanding dust/)
  expect(bare.text).toContain('Follow each product label')
})

test('angle brackets, which hosts refuse, are left out', () => {
  const { text, title } = writeVideoDescription({
    journal: {
      ...sideboardAndBench,
      job: { ...sideboardAndBench.job, title: 'Oak <b>sideboard</b>' },
      products: sideboardAndBench.products.map((one) =>
        one.id === 'teal' ? { ...one, name: 'enamel, <script>teal' } : one,
      ),
    },
    settings: alderYard,
  })
  expect(title + text).not.toMatch(/[<>]/)
})
