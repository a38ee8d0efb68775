/** A text to be read and copied as it is; a line that is set in stays so where it is too long for the screen. */
export function PlainText({
  text,
  label,
}: {
  readonly text: string
  readonly label: string
}) {
  return (
    <div
      role="group"
      aria-label={label}
      className="card p-4 break-words whitespace-pre-wrap sm:p-6"
    >
      {text.split('\n').map((line, index) => (
        <span
          key={index}
          className={/^ /.test(line) ? 'block pl-3.5 -indent-3.5' : 'block'}
        >
          {`${line}\n`}
        </span>
      ))}
    </div>
  )
}
