import { expect, test } from 'vitest'
import { contentKind } from '#services/intake/content-kind'

function box(...brands: string[]): Uint8Array {
  const [major = '', ...others] = brands
  const body = Buffer.from(`ftyp${major}\0\0\0\0${others.join('')}`, 'latin1')
  const length = Buffer.alloc(4)
  length.writeUInt32BE(body.byteLength + 4)
  return Buffer.concat([length, body, Buffer.alloc(16)])
}

const latin1 = (text: string) => Buffer.from(text, 'latin1')

test.each([
  ['JPEG', latin1('\xff\xd8\xff\xe0\0\x10JFIF'), 'jpeg'],
  ['PNG', latin1('\x89PNG\r\n\x1a\n\0\0\0\rIHDR'), 'png'],
  ['WebP', latin1('RIFF\x10\0\0\0WEBPVP8 '), 'webp'],
  ['TIFF, little-endian', latin1('II*\0\x08\0\0\0'), 'tiff'],
  ['TIFF, big-endian', latin1('MM\0*\0\0\0\x08'), 'tiff'],
  ['BigTIFF', latin1('II+\0\x08\0\0\0'), 'tiff'],
  ['AVIF', box('avif', 'mif1', 'miaf'), 'avif'],
  ['AVIF behind the general brand', box('mif1', 'avif', 'miaf'), 'avif'],
  ['HEIC', box('heic', 'mif1'), 'heic'],
  ['HEIC behind the general brand', box('mif1', 'heic'), 'heic'],
  ['10-bit HEIC', box('heix', 'mif1'), 'heic'],
  ['HEIF that says no more', box('mif1', 'miaf'), 'heic'],
])('%s is taken', (_name, head, kind) => {
  expect(contentKind(head)).toEqual({ kind })
})

test.each([
  ['an empty file', new Uint8Array(), /empty/],
  ['a HEIC sequence', box('msf1', 'hevc'), /moving picture/],
  ['a sequence of pictures', box('avis', 'avif'), /moving picture/],
  ['an MP4 video', box('isom', 'mp42'), /video/],
  ['a QuickTime video', box('qt  '), /video/],
  ['a Matroska video', latin1('\x1aE\xdf\xa3\0\0'), /video/],
  ['an AVI video', latin1('RIFF\x10\0\0\0AVI LIST'), /video/],
  ['a GIF', latin1('GIF89a\x01\0\x01\0'), /GIF/],
  ['a PDF', latin1('%PDF-1.7\n'), /PDF/],
  ['an SVG drawing', latin1('<?xml version="1.0"?>\n<svg xmlns="x">'), /SVG/],
  ['an SVG behind a comment', latin1('<!-- made by hand --><svg>'), /SVG/],
  ['a web page', latin1('\n<!DOCTYPE html><html>'), /web page/],
  ['script', latin1('<script>alert(1)</script>'), /web page/],
  ['text', latin1('Dear buyer,'), /not a picture/],
  ['a BMP', latin1('BM\x36\0\0\0'), /BMP/],
  ['a JPEG XL', latin1('\xff\x0a\x00\x10'), /JPEG XL/],
  ['a JPEG XL in boxes', latin1('\0\0\0\x0cJXL \r\n'), /JPEG XL/],
  ['a JPEG 2000', latin1('\0\0\0\x0cjP  \r\n'), /JPEG 2000/],
  ['an archive', latin1('PK\x03\x04'), /archive/],
  ['a raw file in boxes', box('crx ', 'isom'), /raw file/],
  ['a raw file of its own kind', latin1('FUJIFILMCCD-RAW 0201'), /raw file/],
  ['nothing but one byte', latin1('\xff\xff\xff\xff'), /not a picture/],
])('%s is not taken, and says why', (_name, head, reason) => {
  const found = contentKind(head)
  expect(found.kind).toBe('refused')
  expect(found).toHaveProperty('reason', expect.stringMatching(reason))
})
