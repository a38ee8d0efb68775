import type { BenchMoment } from '#core/bench/bench-moments'
import { type MomentStyle, momentWords } from '#core/time/moments'
import { type Instant, addMinutes } from '#core/units'
import type { Notice } from './_components/bench-notices.client'

/** Told so long before a window closes: time to set up and to coat. */
const closingNoticeMinutes = 30
/** What came to pass so lately is told still: a page that slept missed it. */
const lateNoticeMinutes = 2
const noticesSent = 20

/** What is told while the page is open: the next things that get ready, and windows that are about to close. */
export function noticesOf(
  moments: readonly BenchMoment[],
  at: Instant,
  style: MomentStyle,
): readonly Notice[] {
  return moments
    .flatMap((moment) => {
      const told =
        moment.kind === 'recoat-by'
          ? addMinutes(moment.at, -closingNoticeMinutes)
          : moment.at
      return moment.kind === 'cured' ||
        told < addMinutes(at, -lateNoticeMinutes)
        ? []
        : [{ moment, told }]
    })
    .sort((one, other) => one.told - other.told)
    .slice(0, noticesSent)
    .map(({ moment: { id, kind, at: moment, entry, title }, told }) => ({
      id: `${id}.${moment}`,
      title:
        kind === 'recoat-by'
          ? `${title}, ${momentWords(moment, at, style)}`
          : title,
      body: [entry.product?.name ?? '', entry.job.title, entry.doubt ?? '']
        .filter((part) => part !== '')
        .join('. '),
      inMilliseconds: told - at,
    }))
}
