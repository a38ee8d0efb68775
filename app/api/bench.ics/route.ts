import { readBenchCalendar } from '#services/bench/bench-calendar'
import { now } from '#services/clock'
import { isCalendarFeed } from '#services/devices/standing'
import { methods } from '../_http/methods'
import { originOf } from '../_http/origin-of'
import { textAnswer } from '../_http/text-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods(
  {
    GET: async (request) => {
      const answer = textAnswer(
        await readBenchCalendar(now(), originOf(request)),
        'text/calendar',
      )
      // Its address may hold a secret, and what it tells is of this moment.
      answer.headers.set('cache-control', 'private, no-store')
      return answer
    },
  },
  {
    letIn: async (request) => {
      const feed = new URL(request.url).searchParams.get('feed')
      return feed !== null && (await isCalendarFeed(feed, now()))
    },
  },
)
