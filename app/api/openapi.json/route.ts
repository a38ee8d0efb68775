import { openApiDocument } from '#services/openapi/document'
import { methods } from '../_http/methods'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: () => Response.json(openApiDocument()),
})
