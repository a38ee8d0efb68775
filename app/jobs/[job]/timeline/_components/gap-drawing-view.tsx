import type { DryCheck } from '#core/drying/dry-check'
import { lengthOfTime } from '#core/time/length-of-time'
import { degreeSign, shownDegrees } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import type { AirLine, GapDrawing } from '#core/timeline/plan-gap-drawing'

const percent = (across: number) => `${(across * 100).toFixed(2)}%`

/**
 * The wait as a bar on a line of time, with the label's times and the moment of dryness marked on it, and the air below.
 * What it shows is said in words beside it, so it is hidden from screen readers.
 */
export function GapDrawingView({
  check,
  drawing,
  units,
}: {
  readonly check: DryCheck
  readonly drawing: GapDrawing
  readonly units: Units
}) {
  const { waited, labelMin, labelMax, required, folded } = drawing
  const dryAt = required ?? labelMin ?? waited
  const slower =
    required !== undefined && labelMin !== undefined && required > labelMin
  return (
    <div
      aria-hidden="true"
      className="mt-2 max-w-md print-as-drawn break-inside-avoid"
    >
      <div className="border-line-strong bg-well relative h-6 overflow-hidden rounded-md border">
        {/* The film dries from left to right: pale while wet, full where it was dry enough. */}
        <div
          className="absolute inset-y-0 left-0 overflow-hidden"
          style={{ width: percent(waited) }}
        >
          <div
            className="h-full"
            style={{
              width: `calc(100% / ${waited.toFixed(4)})`,
              background: `linear-gradient(to right, color-mix(in oklab, var(--ink-soft) 15%, transparent), var(--ink-soft) ${percent(dryAt)})`,
            }}
          />
        </div>
        {folded !== undefined && (
          <div
            className="bg-well absolute inset-y-0 w-2 -skew-x-12"
            style={{ left: percent((folded + waited) / 2) }}
          />
        )}
        {labelMin !== undefined && (
          <Mark at={labelMin} className="border-l-2" />
        )}
        {slower && <Mark at={required} className="border-l-4" />}
        {labelMax !== undefined && (
          <Mark at={labelMax} className="border-l-4 border-double" />
        )}
      </div>
      <ul className="text-ink-soft text-small mt-1 flex flex-wrap gap-x-4">
        {check.label.min !== undefined && (
          <Key className="border-l-2">
            label {lengthOfTime(check.label.min)}
          </Key>
        )}
        {slower && check.required !== undefined && (
          <Key className="border-l-4">
            dry enough {lengthOfTime(check.required, 'up')}
          </Key>
        )}
        {check.label.max !== undefined && (
          <Key className="border-l-4 border-double">
            latest {lengthOfTime(check.label.max)}
          </Key>
        )}
      </ul>
      {drawing.temperature !== undefined && drawing.humidity !== undefined && (
        <>
          <svg
            viewBox="0 0 100 30"
            preserveAspectRatio="none"
            className="border-line mt-1 block h-10 w-full border-b"
          >
            <Line line={drawing.temperature} />
            <Line line={drawing.humidity} dashed />
          </svg>
          <ul className="text-ink-soft text-small mt-1 flex flex-wrap gap-x-4">
            <li>
              <svg viewBox="0 0 24 8" className="mr-1.5 inline h-2 w-6">
                <path d="M0 4h24" stroke="var(--ink)" strokeWidth="2.500" />
              </svg>
              {temperatureRange(drawing.temperature, units)}
            </li>
            <li>
              <svg viewBox="0 0 24 8" className="mr-1.5 inline h-2 w-6">
                <path
                  d="M0 4h24"
                  stroke="var(--ink)"
                  strokeWidth="2.500"
                  strokeDasharray="4 3"
                />
              </svg>
              {rangeWords(drawing.humidity.lowest, drawing.humidity.highest)} %
            </li>
          </ul>
        </>
      )}
    </div>
  )
}

function Mark({
  at,
  className,
}: {
  readonly at: number
  readonly className: string
}) {
  return (
    <div
      className={`border-press absolute inset-y-0 shadow-[0_0_0_1px_var(--paper)] ${className}`}
      // The mark at the right edge stays inside it.
      style={{ left: `min(${percent(at)}, 100% - 4px)` }}
    />
  )
}

function Key({
  className,
  children,
}: {
  readonly className: string
  readonly children: React.ReactNode
}) {
  return (
    <li className="flex items-center gap-1.5">
      <span className={`border-press inline-block h-4 ${className}`} />
      <span>{children}</span>
    </li>
  )
}

function Line({
  line,
  dashed = false,
}: {
  readonly line: AirLine
  readonly dashed?: boolean
}) {
  return (
    <polyline
      points={line.points
        .map(
          ({ x, y }) => `${(x * 100).toFixed(2)},${(28 - y * 26).toFixed(2)}`,
        )
        .join(' ')}
      fill="none"
      stroke="var(--ink)"
      strokeWidth="2"
      strokeDasharray={dashed ? '4 3' : undefined}
      vectorEffect="non-scaling-stroke"
    />
  )
}

function temperatureRange(line: AirLine, units: Units): string {
  return `${rangeWords(shownDegrees(line.lowest, units), shownDegrees(line.highest, units))} ${degreeSign(units)}`
}

function rangeWords(lowest: number, highest: number): string {
  const low = lowest.toFixed(0)
  const high = highest.toFixed(0)
  return low === high ? low : `${low} to ${high}`
}
