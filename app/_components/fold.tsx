import type { ReactNode } from 'react'

/** Something that most people never need, behind a line that opens it. */
export function Fold({
  title,
  children,
}: {
  readonly title: string
  readonly children: ReactNode
}) {
  return (
    <details className="border-line border-t">
      <summary className="link flex min-h-12 cursor-pointer items-center">
        {title}
      </summary>
      <div className="pb-3">{children}</div>
    </details>
  )
}
