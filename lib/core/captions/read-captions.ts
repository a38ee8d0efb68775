import type { Captions } from '#core/captions/cue'
import { parseSubRip } from '#core/captions/parse-subrip'
import { parseWebVtt } from '#core/captions/parse-webvtt'
import { type Result, ok, refused } from '#core/result'

/**
 * A caption file, told by what is in it: WebVTT by its first line, SubRip by its timings.
 *
 * A file with the timings of WebVTT but without its first line is read as SubRip, whose reader takes both.
 */
export function readCaptions(text: string): Result<Captions> {
  const webVtt = parseWebVtt(text)
  const captions: Captions =
    webVtt === undefined
      ? { format: 'subrip', cues: parseSubRip(text) }
      : { format: 'webvtt', cues: webVtt }
  if (captions.cues.some((cue) => cue.text.trim() !== '')) return ok(captions)
  return refused({
    kind: 'unsupported',
    detail:
      webVtt === undefined
        ? 'This is no caption file: it has no line such as 00:01:02,500 --> 00:01:04,000. Export the captions of the video as WebVTT (.vtt) or SubRip (.srt) and send that file.'
        : 'This caption file has no captions with text in it. Export the captions of the video again.',
  })
}
