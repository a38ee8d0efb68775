import type { LastPlacing } from '#services/placing/undo-placing'

/** What was placed last, and the way back. */
export function LastPlacingNote({
  last,
  time,
  undo,
}: {
  readonly last: LastPlacing
  readonly time: string
  readonly undo: () => Promise<void>
}) {
  const { photoCount, stepCount, isUndone } = last
  const photos = photoCount === 1 ? 'One photo' : `${photoCount} photos`
  const were = photoCount === 1 ? 'was' : 'were'
  const steps =
    stepCount === 0
      ? ''
      : stepCount === 1
        ? ' One step was added.'
        : ` ${stepCount} steps were added.`
  return (
    <div
      id="placed"
      role="status"
      className="card mb-6 flex flex-wrap items-center justify-between gap-3 p-4"
    >
      <p>
        {isUndone
          ? `Taken back: ${photos.toLowerCase()} placed at ${time} ${were} put back among those not placed yet.`
          : `${photos} ${were} placed at ${time}.${steps}`}
      </p>
      {!isUndone && (
        <form action={undo}>
          <button className="button">Take it back</button>
        </form>
      )}
    </div>
  )
}
