import { readBenchCalendar } from '#services/bench/bench-calendar'
import { now } from '#services/clock'
import { methods } from '../_http/methods'
import { originOf } from '../_http/origin-of'
import { textAnswer } from '../_http/text-answer'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) =>
    textAnswer(
      await readBenchCalendar(now(), originOf(request)),
      'text/calendar',
    ),
})
