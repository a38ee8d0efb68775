/**
 * A text to be read and copied as it is; a line that is set in stays so where it is too long for the screen. On paper no
 * paragraph is torn in two that fits on a page.
 */
export function PlainText({
  text,
  label,
}: {
  readonly text: string
  readonly label: string
}) {
  const paragraphs = text.split('\n\n')
  return (
    <div
      role="group"
      aria-label={label}
      className="card p-4 break-words whitespace-pre-wrap sm:p-6 print:border-0 print:p-0"
    >
      {paragraphs.map((paragraph, index) => (
        <span key={index} className="block break-inside-avoid">
          {paragraph.split('\n').map((line, at) => (
            <span
              key={at}
              className={/^ /.test(line) ? 'block pl-3.5 -indent-3.5' : 'block'}
            >
              {`${line}\n`}
            </span>
          ))}
          {index < paragraphs.length - 1 && (
            <span className="block">{'\n'}</span>
          )}
        </span>
      ))}
    </div>
  )
}
