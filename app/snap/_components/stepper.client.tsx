'use client'

/**
 * A number that is set by two large buttons, or typed. Empty means that it is not said; the number of the last time is only
 * told beside it, and taken by the first tap on `+`.
 */
export function Stepper({
  label,
  unit,
  value,
  lastTime,
  steps,
  onChange,
}: {
  readonly label: string
  readonly unit: string
  readonly value: number | undefined
  readonly lastTime?: number | undefined
  /** The values that the buttons go through, ascending. */
  readonly steps: readonly number[]
  readonly onChange: (value: number | undefined) => void
}) {
  const at = value ?? 0
  const less = steps.findLast((one) => one < at)
  const more = steps.find((one) => one > at)
  const up = value === undefined ? (lastTime ?? more) : (more ?? value)
  return (
    <div role="group" aria-label={label} className="@container min-w-0">
      <p className="mb-1.5 font-semibold">
        {label}
        {lastTime !== undefined && (
          <span className="text-ink-soft font-normal">
            {' '}
            (last time {lastTime} {unit})
          </span>
        )}
      </p>
      {/* In large text the number stands over its buttons, which would leave it no room between them. */}
      <div className="grid grid-cols-2 items-stretch gap-2 @min-[15rem]:flex">
        <button
          type="button"
          className="button text-title min-h-16 shrink-0 @min-[15rem]:w-20"
          aria-label={`Less: ${label}`}
          onClick={() => {
            onChange(less)
          }}
        >
          −
        </button>
        <label className="relative order-first col-span-2 min-w-0 grow @min-[15rem]:order-none">
          <span className="sr-only">
            {label}, in {unit}
          </span>
          <input
            className="input text-lead min-h-16 px-[min(2.5rem,20%)] text-center font-bold placeholder:text-base placeholder:font-normal"
            inputMode="decimal"
            autoComplete="off"
            placeholder="not said"
            value={value === undefined ? '' : String(value)}
            onChange={(event) => {
              const typed = Number(event.target.value.replace(',', '.'))
              onChange(
                event.target.value === '' || !Number.isFinite(typed)
                  ? undefined
                  : typed,
              )
            }}
          />
          <span className="text-ink-soft pointer-events-none absolute inset-y-0 right-3 flex items-center">
            {unit}
          </span>
        </label>
        <button
          type="button"
          className="button text-title min-h-16 shrink-0 @min-[15rem]:w-20"
          aria-label={`More: ${label}`}
          onClick={() => {
            onChange(up)
          }}
        >
          +
        </button>
      </div>
    </div>
  )
}
