import { methods } from '../_http/methods'
import { problem } from '../_http/problem'

const nothingHere = () =>
  problem(
    404,
    'There is nothing at this address. What there is stands in /api/openapi.json.',
  )

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: nothingHere,
  POST: nothingHere,
  PUT: nothingHere,
  PATCH: nothingHere,
  DELETE: nothingHere,
})
