import { ok, refused } from '#core/result'
import { addAir } from '#services/air/air'
import { airWarnings } from '#services/air/air-warnings'
import { type DateOrder, readLoggerCsv } from '#services/air/read-logger-csv'
import { newAir } from '#services/air/schema'
import { now } from '#services/clock'
import { airQuery } from '#services/openapi/queries'
import { readWorkshop } from '#services/workshop/workshop'
import { methods } from '../_http/methods'
import { refusalProblem } from '../_http/problem'
import { readJson, readText } from '../_http/read-json'
import { readQuery } from '../_http/read-query'

/** A year of readings every minute, with room to spare. */
const maximumBytes = 50_000_000

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  POST: async (request) => {
    const query = readQuery(request, airQuery)
    if (!query.ok) return query.refusal
    const type = request.headers.get('content-type') ?? ''
    const sent = type.toLowerCase().startsWith('text/csv')
      ? await readCsv(request, query.value.order)
      : await readReadings(request)
    if (!sent.ok) return sent.refusal
    const { kept } = await addAir(sent.value.readings)
    const warnings = [
      ...sent.value.warnings,
      ...airWarnings(sent.value.readings, now()),
    ]
    return Response.json({ kept, warnings }, { status: 201 })
  },
})

async function readReadings(request: Request) {
  const sent = await readJson(request, newAir, maximumBytes)
  return sent.ok ? ok({ readings: [sent.value].flat(), warnings: [] }) : sent
}

async function readCsv(request: Request, order: DateOrder | undefined) {
  const text = await readText(request, maximumBytes)
  if (!text.ok) return text
  const read = readLoggerCsv(text.value, (await readWorkshop()).zone, order)
  return read.ok ? read : refused(refusalProblem(read.refusal))
}
