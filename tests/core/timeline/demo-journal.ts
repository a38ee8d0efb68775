import type { Camera, Journal } from '#core/journal/journal'
import { readLocal } from '#core/time/zone'
import { journalOf, photo, product } from './journal-of'

const reference = { celsius: 25, humidity: 50 }

/** Photos of the camera that records no offset and runs 67 minutes slow: what its files say, read in the zone. */
const cameraB = (id: string, local: string) => ({
  id,
  taken: readLocal(local, 'Europe/London'),
  camera: 'camera-b',
  basis: 'zone' as const,
})

const phone: Camera = { id: 'phone', name: 'Phone A' }
export const uncheckedCameras: readonly Camera[] = [
  phone,
  { id: 'camera-b', name: 'Camera B' },
]
export const checkedCameras: readonly Camera[] = [
  phone,
  {
    id: 'camera-b',
    name: 'Camera B',
    clock: { correctionSeconds: 67 * 60, uncertaintySeconds: 0 },
  },
]

const ours = {
  primer: product('primer', 'waterborne-acrylic', {
    recoatMinutes: 60,
    sandMinutes: 60,
    reference,
  }),
  enamel: product('enamel', 'waterborne-acrylic', {
    recoatMinutes: 60,
    cureDays: 21,
    reference,
  }),
  stripper: product('stripper', 'other', { recoatMinutes: 60 }),
  conditioner: product('conditioner', 'other', {
    recoatMinutes: 5,
    recoatByMinutes: 120,
  }),
  stain: product('stain', 'oil-stain', { recoatMinutes: 1440, reference }),
  clear: product('clear', 'waterborne-acrylic', {
    recoatMinutes: 120,
    recoatByMinutes: 720,
    cureDays: 21,
    reference,
  }),
  metalPrimer: product('metal primer', 'other', { recoatMinutes: 60 }),
  brass: product('brass', 'other', { recoatMinutes: 60, cureDays: 7 }),
}

/** Photo times of the demo's sideboard job, typed from its plan (Alder Yard, our own rendering). */
const photos = [
  photo('08', '2026-10-22T10:15:05.000Z'),
  cameraB('09', '2026-10-22T10:24:40'),
  photo('10', '2026-10-23T08:30:12.274Z'),
  photo('11', '2026-10-23T08:38:51.411Z'),
  photo('12', '2026-10-23T11:09:30.548Z'),
  cameraB('13', '2026-10-23T11:09:02'),
  photo('14', '2026-10-24T09:10:44.822Z'),
  photo('15', '2026-10-24T09:25:10.959Z'),
  photo('16', '2026-10-24T10:03:25.096Z'),
  photo('17', '2026-10-24T10:51:02.233Z'),
  photo('18', '2026-10-24T10:53:40.370Z'),
  cameraB('19', '2026-10-24T12:53:30'),
  photo('20', '2026-10-24T13:32:10.644Z'),
  cameraB('21', '2026-10-24T15:13:15'),
  photo('22', '2026-10-24T22:10:20.918Z'),
  photo('23', '2026-10-25T08:40:05.055Z'),
  photo('24', '2026-10-25T09:15:33.192Z'),
  cameraB('25', '2026-10-25T08:33:18'),
  photo('26', '2026-10-25T09:55:00.466Z'),
  photo('27', '2026-10-25T19:01:45.603Z'),
  photo('28', '2026-10-25T22:12:05.740Z'),
  photo('29', '2026-10-26T11:02:30.877Z'),
]

/** The demo's sideboard with its bench, finished. */
export const sideboardJob: Journal = journalOf({
  surfaces: {
    sideboard: ['body', 'top', 'hardware', 'drawers'],
    bench: ['bench body'],
  },
  finishedAt: '2026-10-27T11:00:00Z',
  photos,
  cameras: uncheckedCameras,
  products: Object.values(ours),
  steps: [
    {
      id: 'scuff',
      kind: 'scuff',
      on: { body: null, 'bench body': null },
      photoIds: ['08', '09'],
    },
    {
      id: 'prime 1',
      kind: 'prime',
      productId: 'primer',
      on: { body: 1, 'bench body': 1 },
      photoIds: ['10', '11'],
    },
    {
      id: 'prime 2',
      kind: 'prime',
      productId: 'primer',
      on: { body: 2, 'bench body': 2 },
      photoIds: ['12', '13'],
    },
    {
      id: 'paint 1',
      kind: 'coat',
      productId: 'enamel',
      on: { body: 1 },
      photoIds: ['14'],
    },
    {
      id: 'bench paint 1',
      kind: 'coat',
      productId: 'enamel',
      on: { 'bench body': 1 },
      photoIds: ['15'],
    },
    {
      id: 'bench paint 2',
      kind: 'coat',
      productId: 'enamel',
      on: { 'bench body': 2 },
      photoIds: ['16'],
    },
    {
      id: 'paint 2',
      kind: 'coat',
      productId: 'enamel',
      on: { body: 2 },
      photoIds: ['17', '18'],
    },
    {
      id: 'strip',
      kind: 'strip',
      productId: 'stripper',
      on: { top: null },
      photoIds: ['19', '20'],
    },
    { id: 'sand', kind: 'sand', on: { top: null }, photoIds: ['21'] },
    {
      id: 'hardware primer',
      kind: 'hardware',
      productId: 'metal primer',
      on: { hardware: 1 },
      photoIds: ['22'],
    },
    {
      id: 'brass',
      kind: 'hardware',
      productId: 'brass',
      on: { hardware: 2 },
      photoIds: ['23'],
    },
    {
      id: 'condition',
      kind: 'condition',
      productId: 'conditioner',
      on: { top: null },
      photoIds: ['24'],
    },
    {
      id: 'stain',
      kind: 'stain',
      productId: 'stain',
      on: { top: 1 },
      photoIds: ['25', '26'],
    },
    {
      id: 'clear 1',
      kind: 'seal',
      productId: 'clear',
      on: { top: 1 },
      photoIds: ['27'],
    },
    {
      id: 'clear 2',
      kind: 'seal',
      productId: 'clear',
      on: { top: 2 },
      photoIds: ['28'],
    },
    { id: 'liner', kind: 'liner', on: { drawers: null }, photoIds: ['29'] },
  ],
})

/** The same job once the camera's clock is set: its photos arrive corrected. */
export const correctedSideboardJob: Journal = {
  ...sideboardJob,
  cameras: checkedCameras,
  photos: sideboardJob.photos.map((one) => {
    if (one.cameraId !== 'camera-b') return one
    const local = one.taken.at + 67 * 60_000
    return { ...one, taken: shifted(local) }
  }),
}

function shifted(at: number) {
  return readLocal(new Date(at).toISOString().slice(0, -1), 'UTC')
}

/** The demo's blanket box, in progress. */
export const blanketBoxJob: Journal = journalOf({
  surfaces: { 'blanket box': ['body'] },
  photos: [
    photo('04', '2026-11-14T11:34:20.247Z'),
    photo('05', '2026-11-14T13:00:40.384Z'),
    photo('06', '2026-11-14T13:25:45.521Z'),
    photo('07', '2026-11-15T12:03:10.658Z'),
    photo('09', '2026-11-15T12:04:35.932Z'),
  ],
  products: Object.values(ours),
  steps: [
    { id: 'scuff', kind: 'scuff', photoIds: ['04'] },
    {
      id: 'prime 1',
      kind: 'prime',
      productId: 'primer',
      on: { body: 1 },
      photoIds: ['05'],
    },
    {
      id: 'prime 2',
      kind: 'prime',
      productId: 'primer',
      on: { body: 2 },
      photoIds: ['06'],
    },
    {
      id: 'paint 1',
      kind: 'coat',
      productId: 'enamel',
      on: { body: 1 },
      photoIds: ['07', '09'],
    },
  ],
})
