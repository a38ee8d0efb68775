import { openBackup } from '#services/backup/kept-plans'
import { now } from '#services/clock'
import { methods } from '../_http/methods'
import { sendFile } from '../_http/send-file'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async (request) => {
    const { headers } = request
    const tag = /^"([^"]+)"$/.exec(headers.get('if-range') ?? '')?.[1]
    const { fileName, ...file } = await openBackup(now(), {
      tag,
      part: headers.has('range'),
    })
    return sendFile(request, {
      ...file,
      headers: {
        'cache-control': 'private, no-store',
        'content-disposition': `attachment; filename="${fileName}"`,
        'x-content-type-options': 'nosniff',
      },
    })
  },
})
