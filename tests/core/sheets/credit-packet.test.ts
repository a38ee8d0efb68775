import { XMLParser } from 'fast-xml-parser'
import { expect, test } from 'vitest'
import { creditPacket } from '#core/sheets/credit-packet'

test.each([
  ['Alder Yard', '© Alder Yard'],
  ['© 2026 Alder Yard', '© 2026 Alder Yard'],
  [`A & B's "<Bay>" 工房`, `© A & B's "<Bay>" 工房`],
])(
  'a credit to %s is told as it was typed, and nothing else',
  (name, rights) => {
    const packet = creditPacket(name)
    const read: unknown = new XMLParser({
      parseTagValue: false,
      htmlEntities: true,
    }).parse(packet)
    expect(read).toEqual({
      'x:xmpmeta': {
        'rdf:RDF': {
          'rdf:Description': {
            'dc:creator': { 'rdf:Seq': { 'rdf:li': name } },
            'dc:rights': { 'rdf:Alt': { 'rdf:li': rights } },
            'photoshop:Credit': name,
          },
        },
      },
    })
  },
)
