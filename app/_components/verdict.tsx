import type { Verdict } from '#core/drying/dry-check'
import { LineIcon } from './line-icon'

/** The words, the shape and the colour of each verdict; the word and the shape carry it alone. */
const looks: Record<
  Verdict,
  { readonly words: string; readonly path: string; readonly tone: string }
> = {
  'too-soon': {
    words: 'Too soon',
    // A drop that has not dried, with a bar through it.
    path: 'M12 3c3.5 4.6 5.5 7.6 5.5 10.6A5.5 5.5 0 0 1 12 19a5.5 5.5 0 0 1-5.5-5.4C6.5 10.6 8.500 7.600 12 3zM4 21 20 5',
    tone: 'border-wet bg-wet-soft text-wet',
  },
  'in-window': {
    words: 'In the window',
    // A tick between the two posts of a window.
    path: 'M4 4v16M20 4v16M8 12.500l3 3.200L16.500 9',
    tone: 'border-sound bg-sound-soft text-sound',
  },
  'past-window': {
    words: 'Past the window',
    // A window's last post, and what went beyond it.
    path: 'M10 4v16M3 12h17M15 7l5 5-5 5',
    tone: 'border-late bg-late-soft text-late',
  },
  unsure: {
    words: 'Unsure',
    path: 'M12 2.500 21.500 12 12 21.500 2.500 12zM9.700 9.700a2.400 2.400 0 1 1 3.600 2.100c-.8.5-1.300 1-1.300 1.900M12 16.600v.1',
    tone: 'border-doubt bg-doubt-soft text-doubt',
  },
  'no-label': {
    words: 'No label time',
    // A tag with nothing on it.
    path: 'M4 8l4-4h12v16H8l-4-4zM8.500 12h.1',
    tone: 'border-line-strong bg-well text-ink-soft',
  },
}

/** A verdict as a chip: shape and word. */
export function VerdictChip({ verdict }: { readonly verdict: Verdict }) {
  const look = looks[verdict]
  return (
    <span
      className={`text-small inline-flex items-center gap-1.5 rounded-full border-2 py-0.5 pr-3 pl-2 font-bold ${look.tone}`}
    >
      <LineIcon path={look.path} className="size-5" />
      {look.words}
    </span>
  )
}

/** The shape of a verdict alone, where its words stand beside it. */
export function VerdictShape({ verdict }: { readonly verdict: Verdict }) {
  return <LineIcon path={looks[verdict].path} className="size-4" />
}

/** The words of a verdict. */
export function verdictWords(verdict: Verdict): string {
  return looks[verdict].words
}
