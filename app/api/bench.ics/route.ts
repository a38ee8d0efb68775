import { readBenchCalendar } from '#services/bench/bench-calendar'
import { now } from '#services/clock'
import { methods } from '../_http/methods'
import { textAnswer } from '../_http/text-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) => {
    const url = new URL(request.url)
    // The name by which the caller reaches the workshop, not the one it gives itself.
    const host = request.headers.get('host') ?? url.host
    return textAnswer(
      await readBenchCalendar(now(), `${url.protocol}//${host}`),
      'text/calendar',
    )
  },
})
