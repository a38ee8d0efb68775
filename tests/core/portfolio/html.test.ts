import fc from 'fast-check'
import { XMLParser } from 'fast-xml-parser'
import { describe, expect, test } from 'vitest'
import { dataBlock, escaped, html } from '#core/portfolio/html'

describe('what is put into a page', () => {
  test('is text, whatever it holds', () => {
    const words = `<script>alert('x')</script> & "more"`
    expect(html`<p title="${words}">${words}</p>`.html).toBe(
      '<p title="&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;more&quot;">&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;more&quot;</p>',
    )
  })

  test('is HTML only where it was made as such', () => {
    const parts = ['a', 'b'].map((one) => html`<li>${one}</li>`)
    expect(
      html`<ul>
        ${parts}
      </ul>`.html.replaceAll('\n', ''),
    ).toBe('<ul><li>a</li><li>b</li></ul>')
    expect(html`<p>${false}${undefined}${3}</p>`.html).toBe('<p>3</p>')
  })

  test('an independent reader gets back any text that was escaped', () => {
    const reader = new XMLParser({
      ignoreAttributes: false,
      attributeNamePrefix: '',
      trimValues: false,
      parseTagValue: false,
      parseAttributeValue: false,
      htmlEntities: true,
    })
    fc.assert(
      fc.property(
        fc.string({
          unit: fc.constantFrom(
            'a',
            'b',
            ' ',
            '<',
            '>',
            '&',
            '"',
            "'",
            '=',
            '/',
            ';',
            '#',
            'x',
          ),
        }),
        (words) => {
          const read: unknown = reader.parse(
            `<p title="${escaped(words)}">.${escaped(words)}.</p>`,
          )
          expect(read).toEqual({
            p: { '#text': `.${words}.`, title: words },
          })
        },
      ),
      { examples: [['&amp;'], ['&#39;'], [']]>']] },
    )
  })
})

test('no text ends a block of data', () => {
  const block = dataBlock('application/ld+json', {
    words: '</script><script>alert(1)</script><!--',
  }).html
  expect(block.match(/<\/script/g)).toHaveLength(1)
  const [, json = ''] =
    /^<script type="[^"]+">(.*)<\/script>$/s.exec(block) ?? []
  expect(JSON.parse(json)).toEqual({
    words: '</script><script>alert(1)</script><!--',
  })
})
