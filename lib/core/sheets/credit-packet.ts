import { escaped } from '#core/portfolio/html'

/**
 * What a picture's file says of who made it, as an XMP packet: the same name as creator, as credit line and, with its
 * sign, as copyright notice. It says nothing else.
 *
 * Source: IPTC Photo Metadata Standard 2023.2, Creator (dc:creator), Credit Line (photoshop:Credit) and Copyright Notice
 * (dc:rights); XMP, ISO 16684-1, for the form; both cited from memory, the form read back by other programs in
 * tests/privacy/files-that-leave.test.ts.
 *
 * @param credit the name as it was typed, not empty
 */
export function creditPacket(credit: string): string {
  const name = escaped(credit)
  const rights = credit.includes('©') ? name : `© ${name}`
  return [
    '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
    '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
    '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/">',
    `<dc:creator><rdf:Seq><rdf:li>${name}</rdf:li></rdf:Seq></dc:creator>`,
    `<dc:rights><rdf:Alt><rdf:li xml:lang="x-default">${rights}</rdf:li></rdf:Alt></dc:rights>`,
    `<photoshop:Credit>${name}</photoshop:Credit>`,
    '</rdf:Description>',
    '</rdf:RDF>',
    '</x:xmpmeta>',
  ].join('')
}
