/** A picture drawn with one line on a grid of 24, in the colour of the text beside it, which says what it means. */
export function LineIcon({
  path,
  className,
}: {
  readonly path: string
  readonly className: string
}) {
  return (
    <svg
      viewBox="0 0 24 24"
      aria-hidden="true"
      className={`shrink-0 ${className}`}
      fill="none"
      stroke="currentColor"
      strokeWidth="2.25"
      strokeLinecap="round"
      strokeLinejoin="round"
    >
      <path d={path} />
    </svg>
  )
}
