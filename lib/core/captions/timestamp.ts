/**
 * A WebVTT timestamp in seconds: `01:02.500`, `00:01:02.500`, `100:00:00.000`.
 *
 * @returns undefined where the text is no timestamp, or has something after it
 * Source: W3C WebVTT, section 6.3 ("collect a WebVTT timestamp"), which takes an hour of one digit though none should be
 * written.
 */
export function readTimestamp(text: string): number | undefined {
  const match = /^(?:(\d+):)?(\d{2}):(\d{2})\.(\d{3})$/.exec(text)
  if (match === null) return undefined
  const [, hours = '0', minutes = '', seconds = '', thousandths = ''] = match
  if (Number(minutes) > 59 || Number(seconds) > 59) return undefined
  return secondsOf(hours, minutes, seconds, thousandths)
}

/**
 * A SubRip timestamp in seconds, in the many shapes that are written: comma, full stop or colon before the thousandths,
 * one to three digits of them or none, single digits, no hours.
 *
 * Common practice, no source: SubRip has no standard.
 */
export function readLooseTimestamp(text: string): number | undefined {
  const match =
    /^(?:(\d{1,3})\s*:\s*)?(\d{1,2})\s*:\s*(\d{1,2})(?:\s*[.,:]\s*(\d{1,3}))?$/.exec(
      text,
    )
  if (match === null) return undefined
  const [, hours = '0', minutes = '', seconds = '', fraction = '0'] = match
  if (Number(minutes) > 59 || Number(seconds) > 59) return undefined
  return secondsOf(hours, minutes, seconds, fraction.padEnd(3, '0'))
}

function secondsOf(
  hours: string,
  minutes: string,
  seconds: string,
  thousandths: string,
): number {
  const whole = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds)
  // One division, so that 62.003 is the number that is written so.
  return (whole * 1000 + Number(thousandths)) / 1000
}

/**
 * A moment as chapters are written: `0:05`, `1:01`, `1:01:01`; parts of a second are left out.
 *
 * @throws RangeError for a moment before the start, or none
 */
export function clockText(seconds: number): string {
  if (!(seconds >= 0 && Number.isFinite(seconds))) {
    throw new RangeError(
      `clockText: expected seconds from 0 on, got ${seconds}`,
    )
  }
  const whole = Math.floor(seconds)
  const two = (value: number) => String(value).padStart(2, '0')
  const hours = Math.floor(whole / 3600)
  const minutes = Math.floor(whole / 60) % 60
  return hours === 0
    ? `${minutes}:${two(whole % 60)}`
    : `${hours}:${two(minutes)}:${two(whole % 60)}`
}
