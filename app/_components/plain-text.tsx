/** A text to be read and copied as it is. */
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
      {text}
    </div>
  )
}
