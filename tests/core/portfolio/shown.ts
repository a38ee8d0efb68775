import type {
  PortfolioHead,
  PublishedPiece,
  ShownPicture,
  ShownPiece,
} from '#core/portfolio/shown-piece'
import { instant } from '#core/units'

export function picture(name: string): ShownPicture {
  return { name, words: `What ${name} shows.`, width: 1440, height: 1080 }
}

export const sideboard: ShownPiece = {
  title: 'Oak & brass "sideboard"',
  kind: 'sideboard',
  story: ['It came with a ring on its top.', 'That is gone.'],
  pairs: [
    {
      name: 'Front',
      before: picture('front-before'),
      after: picture('front-after'),
      aligned: true,
    },
    {
      name: 'Left',
      before: picture('left-before'),
      after: picture('left-after'),
      aligned: false,
    },
  ],
  gallery: [picture('inside-after')],
  steps: [
    { words: 'Primed, first coat: body', picture: picture('prime') },
    { words: 'Painted, first coat: body' },
  ],
  finish: 'A sideboard, painted deep teal.',
  finishes: ['painted', 'clear coated'],
  colours: ['blue-green', 'brown'],
  materials: ['Waterborne enamel, deep teal (paint): two coats'],
  size: 'Size: 137 cm wide.',
  price: { state: 'asking', minor: 48_500, currency: 'GBP' },
  contact: true,
}

export const bench: ShownPiece = {
  title: 'Bench',
  kind: 'bench',
  story: [],
  pairs: [],
  gallery: [picture('after')],
  steps: [],
  finishes: ['waxed'],
  colours: ['tan'],
  materials: [],
  price: { state: 'sold' },
  contact: false,
}

export function out(slug: string, shown: ShownPiece, day = 1): PublishedPiece {
  const at = instant(Date.UTC(2026, 9, day, 12))
  return {
    slug,
    id: `6f1c0c3e-0000-4000-8000-00000000000${day}`,
    publishedAt: at,
    changedAt: at,
    shown,
  }
}

export const alderYard: PortfolioHead = {
  name: 'Alder Yard',
  introduction: ['Two bays, one pair of hands.'],
  contact: ['hello@alder-yard.example', '+44 20 7946 0000', 'By appointment'],
}

export const inPublic = {
  ...alderYard,
  publicAddress: 'https://alder-yard.example/work',
} as const satisfies PortfolioHead
