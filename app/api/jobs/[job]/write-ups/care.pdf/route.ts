import { now } from '#services/clock'
import { noJob } from '#services/jobs/jobs'
import { readPublishedAddress } from '#services/portfolio/published'
import { readCredit } from '#services/sheets/sheet-settings'
import { readWorkshop } from '#services/workshop/workshop'
import { careCardPdf } from '#services/write-ups/care-card-pdf'
import { readWriteUp } from '#services/write-ups/write-ups'
import { methods } from '../../../../_http/methods'
import { refusalProblem } from '../../../../_http/problem'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/jobs/[job]/write-ups/care.pdf'>
>({
  GET: async (_request, { params }) => {
    const { job } = await params
    const card = await readWriteUp(job, 'care', now())
    if (card === undefined) return refusalProblem(noJob.refusal)
    const pdf = await careCardPdf(card, await readWorkshop(), {
      credit: await readCredit(),
      shownAt: await readPublishedAddress(job),
    })
    return new Response(new Uint8Array(pdf), {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': 'inline; filename="care-card.pdf"',
      },
    })
  },
})
