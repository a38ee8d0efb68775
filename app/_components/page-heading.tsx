import type { ReactNode } from 'react'

/** The one first-level heading of a page, what it says in a line, and what can be done from it. */
export function PageHeading({
  title,
  lead,
  actions,
}: {
  readonly title: string
  readonly lead?: ReactNode
  readonly actions?: ReactNode
}) {
  return (
    <div className="mb-5 flex flex-wrap items-start justify-between gap-3">
      <div className="min-w-0">
        <h1 className="text-title font-bold tracking-tight break-words">
          {title}
        </h1>
        {lead !== undefined && (
          <div className="text-ink-soft mt-1 max-w-prose">{lead}</div>
        )}
      </div>
      {actions !== undefined && (
        <div className="flex flex-wrap gap-2 print:hidden">{actions}</div>
      )}
    </div>
  )
}
