/** The round handle of a slider that is drawn over its input: arrows both ways. */
export function SliderHandle() {
  return (
    <svg viewBox="0 0 24 24" width="24" height="24" fill="none">
      <path
        d="M9 6 3 12l6 6M15 6l6 6-6 6"
        stroke="var(--ink)"
        strokeWidth="2.5"
      />
    </svg>
  )
}
