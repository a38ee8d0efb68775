import type { RuleStrength } from '#core/finish/finish-rule'
import { LineIcon } from './line-icon'

const looks: Record<
  RuleStrength,
  { readonly words: string; readonly path: string; readonly tone: string }
> = {
  must: {
    words: 'Must',
    // A board nailed across.
    path: 'M3 8.500h18v7H3zM7 12h.1M17 12h.1',
    tone: 'text-wet',
  },
  should: {
    words: 'Should',
    // A pencil's tick line on a board.
    path: 'M3 15.500h18v4H3zM12 4v7M9 8.500l3 3 3-3',
    tone: 'text-late',
  },
  mind: {
    words: 'Mind',
    path: 'M3 15.500h18v4H3zM12 6.500a1.500 1.500 0 1 0 .1 0',
    tone: 'text-ink-soft',
  },
}

/** How much a rule weighs, as shape and word. */
export function StrengthMark({
  strength,
}: {
  readonly strength: RuleStrength
}) {
  const look = looks[strength]
  return (
    <span
      className={`text-small inline-flex items-center gap-1.5 font-bold ${look.tone}`}
    >
      <LineIcon path={look.path} className="size-5" />
      {look.words}
    </span>
  )
}
