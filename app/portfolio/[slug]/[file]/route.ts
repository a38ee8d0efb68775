import { readPublishedPicture } from '#services/portfolio/published'
import { methods } from '../../../api/_http/methods'
import { pictureAnswer } from '../../_answers'
import { nothingHere } from '../../_nothing-here'

export const dynamic = 'force-dynamic'

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/portfolio/[slug]/[file]'>
>(
  {
    GET: async (request, { params }) => {
      const { slug, file } = await params
      const picture = await readPublishedPicture(slug, file)
      return picture === undefined
        ? nothingHere()
        : pictureAnswer(request, picture)
    },
  },
  { open: 'published' },
)
