import { programVersion } from '#services/openapi/program'
import { methods } from '../_http/methods'

export const { GET, POST, PUT, PATCH, DELETE } = methods(
  { GET: () => Response.json({ status: 'ok', version: programVersion }) },
  { open: true },
)
