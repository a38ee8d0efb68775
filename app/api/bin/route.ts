import { readBin } from '#services/bin/bin'
import { readBinnedParts } from '#services/bin/bin-parts'
import { binToAnswer } from '#services/openapi/bin-answer'
import { methods } from '../_http/methods'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async () => {
    const [parts, { photos }] = await Promise.all([
      readBinnedParts(),
      readBin(),
    ])
    return Response.json(binToAnswer(parts, photos))
  },
})
