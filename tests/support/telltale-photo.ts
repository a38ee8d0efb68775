import { openPicture } from '#services/renditions/open-picture'
import { makePhoto } from './make-photo'

/** What a telltale photo gives away, each text unlike anything else. */
export const secrets = {
  latitude: '51.4317',
  longitude: '-0.2873',
  serial: 'SERIAL-40417',
  lens: 'LENS-90210',
  owner: 'Ottoline Quill',
  artist: 'Percival Rook',
  comment: 'the key is under the blue pot',
  description: 'behind the bakery in Larkspur Row',
  caption: 'Mrs Vane is away until Tuesday',
  city: 'Larkspurton',
  place: 'Larkspur Row 7',
  thumbnail: 'THUMBNAIL-JFXX',
} as const

/**
 * A JPEG that says all it can of its owner: in Exif, XMP and IPTC, in a comment, and with a thumbnail of its own. Half
 * of it is light and half dark, and no two numbers give the same file.
 */
export async function makeTelltale(number: number): Promise<Buffer> {
  const picture = await openPicture(
    await makePhoto({ width: 400 + number, height: 300 }, 'png'),
  )
    .withExif({
      IFD0: {
        Make: 'Alder',
        Model: 'Phone A',
        Artist: secrets.artist,
        ImageDescription: secrets.description,
      },
      IFD2: {
        DateTimeOriginal: '2026:10:22 09:02:10',
        OffsetTimeOriginal: '+01:00',
        BodySerialNumber: secrets.serial,
        LensSerialNumber: secrets.lens,
        CameraOwnerName: secrets.owner,
        UserComment: secrets.comment,
      },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 25/1 5412/100',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 17/1 1428/100',
      },
    })
    .withXmp(
      `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" xmlns:exif="http://ns.adobe.com/exif/1.0/" photoshop:City="${secrets.city}" exif:GPSLatitude="${secrets.latitude}" exif:GPSLongitude="${secrets.longitude}"/></rdf:RDF></x:xmpmeta>`,
    )
    .jpeg()
    .toBuffer()
  // Data sets 2:80 (By-line), 2:92 (Sublocation) and 2:120 (Caption) of IPTC-NAA IIM 4.2, in a Photoshop resource.
  const sets = Buffer.concat([
    dataSet(80, secrets.artist),
    dataSet(92, secrets.place),
    dataSet(120, secrets.caption),
  ])
  const size = Buffer.alloc(4)
  size.writeUInt32BE(sets.byteLength)
  const resource = Buffer.concat([
    Buffer.from('Photoshop 3.0\x00', 'latin1'),
    Buffer.from('8BIM\x04\x04\x00\x00', 'latin1'),
    size,
    sets,
    Buffer.alloc(sets.byteLength % 2),
  ])
  return Buffer.concat([
    picture.subarray(0, 2),
    segment(0xfe, Buffer.from(secrets.comment)),
    segment(0xed, resource),
    segment(0xe0, Buffer.from(`JFXX\x00\x10${secrets.thumbnail}`)),
    picture.subarray(2),
  ])
}

function dataSet(number: number, text: string): Buffer {
  const value = Buffer.from(text)
  const head = Buffer.from([0x1c, 2, number, 0, value.byteLength])
  return Buffer.concat([head, value])
}

function segment(code: number, data: Buffer): Buffer {
  const head = Buffer.from([0xff, code, 0, 0])
  head.writeUInt16BE(data.byteLength + 2, 2)
  return Buffer.concat([head, data])
}
