/** A part of a page: HTML that is safe to put into another part. */
export type Html = { readonly html: string }

type Value = Html | string | number | readonly Html[] | false | undefined

/**
 * HTML from a template. What is put in is escaped as text or as a quoted attribute, unless it is HTML itself; `false` and
 * undefined leave nothing.
 *
 * Source for what is escaped: WHATWG HTML, section 13.1.2.3 and 13.2.5, for text and quoted attribute values.
 */
export function html(
  parts: TemplateStringsArray,
  ...values: readonly Value[]
): Html {
  return {
    html: parts
      // How a template is indented in its file is nothing to a reader of the page.
      .map(
        (part, index) => part.replace(/\n\s*/g, '\n') + written(values[index]),
      )
      .join(''),
  }
}

/**
 * A block of data in a page, such as JSON-LD. No text in it can end the block.
 *
 * @param type its media type, which must not be one of a script that runs
 */
export function dataBlock(type: string, data: unknown): Html {
  const json = JSON.stringify(data).replaceAll('<', '\\u003c')
  return { html: `<script type="${escaped(type)}">${json}</script>` }
}

/** Text as it stands in HTML and in XML. */
export function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')
}

function written(value: Value): string {
  if (value === undefined || value === false) return ''
  if (typeof value === 'number') return String(value)
  if (typeof value === 'string') return escaped(value)
  return 'html' in value
    ? value.html
    : value.map((part) => part.html).join('\n')
}
