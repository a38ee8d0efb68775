'use client'

import { useActionState } from 'react'

/** A code to pair a phone by, and its picture. */
export type Pairing = {
  readonly code: string
  readonly address: string
  /** The dark squares, as a path in a box of `size` by `size`, with the quiet zone that readers need. */
  readonly path: string
  readonly size: number
  /** When it ends, in words. */
  readonly until: string
}

/** The button that makes a pairing code, and the code as a picture for the phone's camera. */
export function PairPhone({
  action,
  fingerprint,
}: {
  readonly action: () => Promise<Pairing>
  readonly fingerprint: string
}) {
  const [pairing, make, pending] = useActionState<Pairing | undefined>(
    action,
    undefined,
  )
  return (
    <div className="flex flex-col gap-4">
      <ol className="max-w-prose list-decimal space-y-2 pl-5">
        <li>
          Once for each phone: open the address above on it, followed by{' '}
          <code>/authority.crt</code>, and install that certificate as one that
          you trust. The phone warns before that, because it does not know this
          workshop yet. It must show this fingerprint:
          <code className="text-small mt-1 block break-all">{fingerprint}</code>
        </li>
        <li>Make a code and point the phone’s camera at it.</li>
      </ol>
      <form action={make}>
        <button type="submit" className="button button-main" disabled={pending}>
          {pending
            ? 'Making a code …'
            : pairing === undefined
              ? 'Pair a phone'
              : 'Make another code'}
        </button>
      </form>
      <div role="status">
        {pairing !== undefined && (
          <div className="card flex flex-wrap items-center gap-4 p-4">
            <svg
              viewBox={`0 0 ${pairing.size} ${pairing.size}`}
              className="size-64 max-w-full"
              role="img"
              aria-label="The pairing code as a picture for a phone’s camera"
              shapeRendering="crispEdges"
            >
              <rect width={pairing.size} height={pairing.size} fill="#fff" />
              <path d={pairing.path} fill="#000" />
            </svg>
            <div className="min-w-0">
              <p className="text-title font-bold tracking-wide break-words tabular-nums">
                {pairing.code}
              </p>
              <p className="text-ink-soft">
                Good for one phone, until {pairing.until}.
              </p>
              <p className="text-ink-soft text-small break-all">
                Or type it at {pairing.address}
              </p>
            </div>
          </div>
        )}
      </div>
    </div>
  )
}
