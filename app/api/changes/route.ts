import { readWorkshopChanges } from '#services/changes/workshop-changes'
import { workshopChangesToAnswer } from '#services/openapi/change-answer'
import { methods } from '../_http/methods'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async () =>
    Response.json(workshopChangesToAnswer(await readWorkshopChanges())),
})
