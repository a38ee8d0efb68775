import { readFileSync } from 'node:fs'

/** What a made HEIC file says of its picture. */
export type MadeHeic = {
  /** Quarter turns against the clock: the box `irot`. */
  readonly turns?: 0 | 1 | 2 | 3
  /** The picture as a grid of so many tiles across and down. */
  readonly grid?: readonly [columns: number, rows: number]
  readonly profile?: Uint8Array
  /** Primaries named in place of a profile (ITU-T H.273 table 2). */
  readonly primaries?: number
  /** An Exif block: a TIFF without pictures. */
  readonly exif?: Uint8Array
  /** The part in the middle that is to be shown: the box `clap`. */
  readonly crop?: readonly [width: number, height: number]
}

const tile = { width: 160, height: 120 }

/**
 * A HEIC file around the one coded picture of `tests/fixtures/heic`: its left half is r 200 g 150 b 80, its right half
 * r 20 g 120 b 110. The metadata stands behind the picture, at the end of the file.
 *
 * Sources: ISO/IEC 14496-12 (boxes, iloc, clap), ISO/IEC 23008-12 (irot, grid, colr, Exif).
 */
export function makeHeic(made: MadeHeic = {}): Buffer {
  const coded = readCoded()
  const [columns, rows] = made.grid ?? [1, 1]
  const tiles = columns * rows
  const gridId = tiles + 1
  const primary = made.grid === undefined ? 1 : gridId
  const exifId = gridId + 1
  const size = { width: tile.width * columns, height: tile.height * rows }

  const shown: Buffer[] = [
    ...(made.profile === undefined
      ? []
      : [box('colr', Buffer.from('prof'), Buffer.from(made.profile))]),
    ...(made.primaries === undefined
      ? []
      : [
          box(
            'colr',
            Buffer.from('nclx'),
            uint16(made.primaries),
            uint16(13),
            // The picture was coded with the matrix of BT.601, as most are.
            uint16(6),
            Buffer.from([0x80]),
          ),
        ]),
    ...(made.crop === undefined
      ? []
      : [
          box(
            'clap',
            ...[...made.crop].flatMap((side) => [uint32(side), uint32(1)]),
            ...[0, 1, 0, 1].map(uint32),
          ),
        ]),
    ...(made.turns === undefined
      ? []
      : [box('irot', Buffer.from([made.turns]))]),
  ]
  // Properties from 1: the coding, the size of a tile, the size of the whole, then what belongs to what is shown.
  const properties = [
    coded.configuration,
    full('ispe', uint32(tile.width), uint32(tile.height)),
    full('ispe', uint32(size.width), uint32(size.height)),
    ...shown,
  ]
  const ofShown = shown.map((_, index) => index + 4)
  const associations = Array.from({ length: tiles }, (_, index) => ({
    item: index + 1,
    properties: [1, 2, ...(primary === index + 1 ? ofShown : [])],
  }))
  if (made.grid !== undefined) {
    associations.push({ item: gridId, properties: [3, ...ofShown] })
  }

  const data: { readonly item: number; readonly bytes: Buffer }[] = []
  for (let item = 1; item <= tiles; item += 1) {
    data.push({ item, bytes: coded.picture })
  }
  if (made.grid !== undefined) {
    const sizes = [uint16(size.width), uint16(size.height)]
    const head = Buffer.from([0, 0, rows - 1, columns - 1])
    data.push({ item: gridId, bytes: Buffer.concat([head, ...sizes]) })
  }
  if (made.exif !== undefined) {
    // Four bytes say how far it is to the TIFF header behind them.
    const bytes = Buffer.concat([uint32(0), Buffer.from(made.exif)])
    data.push({ item: exifId, bytes })
  }

  const kinds = data.map(({ item }) =>
    item === exifId ? 'Exif' : item === gridId ? 'grid' : 'hvc1',
  )
  const names = data.map(({ item }, index) => {
    const hidden = made.grid !== undefined && item <= tiles ? 1 : 0
    return box(
      'infe',
      Buffer.from([2, 0, 0, hidden]),
      uint16(item),
      uint16(0),
      Buffer.from(`${kinds[index] ?? ''}\0`),
    )
  })
  const references = [
    ...(made.grid === undefined
      ? []
      : [
          box(
            'dimg',
            uint16(gridId),
            uint16(tiles),
            ...data.slice(0, tiles).map(({ item }) => uint16(item)),
          ),
        ]),
    ...(made.exif === undefined
      ? []
      : [box('cdsc', uint16(exifId), uint16(1), uint16(primary))]),
  ]
  const meta = (offsets: readonly number[]) =>
    full(
      'meta',
      full('hdlr', uint32(0), Buffer.from('pict'), Buffer.alloc(13)),
      full('pitm', uint16(primary)),
      full(
        'iloc',
        Buffer.from([0x44, 0]),
        uint16(data.length),
        ...data.flatMap(({ item, bytes }, index) => [
          uint16(item),
          uint16(0),
          uint16(1),
          uint32(offsets[index] ?? 0),
          uint32(bytes.byteLength),
        ]),
      ),
      full('iinf', uint16(names.length), ...names),
      ...(references.length === 0 ? [] : [full('iref', ...references)]),
      box(
        'iprp',
        box('ipco', ...properties),
        full(
          'ipma',
          uint32(associations.length),
          ...associations.flatMap((one) => [
            uint16(one.item),
            Buffer.from([one.properties.length, ...one.properties]),
          ]),
        ),
      ),
    )
  const ftyp = box('ftyp', Buffer.from('heic\0\0\0\0mif1heicmiaf', 'latin1'))
  let at = ftyp.byteLength + meta([]).byteLength + 8
  const offsets = data.map(({ bytes }) => {
    const offset = at
    at += bytes.byteLength
    return offset
  })
  const mdat = box('mdat', ...data.map(({ bytes }) => bytes))
  return Buffer.concat([ftyp, meta(offsets), mdat])
}

/** The decoder's configuration and the coded picture of the one file that was made by an encoder. */
function readCoded(): {
  readonly configuration: Buffer
  readonly picture: Buffer
} {
  const file = readFileSync('tests/fixtures/heic/two-colours.heic')
  const named = file.indexOf('hvcC') - 4
  const configuration = file.subarray(named, named + file.readUInt32BE(named))
  const data = file.indexOf('mdat') - 4
  return {
    configuration,
    picture: file.subarray(data + 8, data + file.readUInt32BE(data)),
  }
}

function box(kind: string, ...parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat(parts)
  return Buffer.concat([uint32(body.byteLength + 8), Buffer.from(kind), body])
}

/** A box with a version and flags, all zero. */
function full(kind: string, ...parts: readonly Buffer[]): Buffer {
  return box(kind, uint32(0), ...parts)
}

function uint16(value: number): Buffer {
  const bytes = Buffer.alloc(2)
  bytes.writeUInt16BE(value)
  return bytes
}

function uint32(value: number): Buffer {
  const bytes = Buffer.alloc(4)
  bytes.writeUInt32BE(value)
  return bytes
}
