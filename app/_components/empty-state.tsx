import type { ReactNode } from 'react'

/** What a screen shows while there is nothing on it, and how that changes. */
export function EmptyState({
  title,
  children,
}: {
  readonly title: string
  readonly children: ReactNode
}) {
  return (
    <div className="border-line-strong rounded-card flex flex-col items-start gap-3 border-2 border-dashed p-6">
      <p className="text-lead font-bold">{title}</p>
      <div className="text-ink-soft flex max-w-prose flex-col items-start gap-4">
        {children}
      </div>
    </div>
  )
}
