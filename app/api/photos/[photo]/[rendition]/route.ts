import { readPhotoFile } from '#services/renditions/read-photo-file'
import { methods } from '../../../_http/methods'
import { refusalProblem } from '../../../_http/problem'
import { sendFile } from '../../../_http/send-file'

export const dynamic = 'force-dynamic'

/** What browsers only ever show as pictures; anything else is offered for saving. */
const shown = ['image/jpeg', 'image/png', 'image/webp', 'image/avif']

export const { GET, POST, PUT, PATCH, DELETE } = methods<
  RouteContext<'/api/photos/[photo]/[rendition]'>
>({
  GET: async (request, { params }) => {
    const { photo, rendition } = await params
    const file = await readPhotoFile(photo, rendition)
    if (!file.ok) return refusalProblem(file.refusal)
    const { mediaType } = file.value
    return sendFile(request, {
      ...file.value,
      headers: {
        // A photo that is turned by hand is shown anew at once; asking again costs a tag.
        ...(file.value.settled
          ? {}
          : { 'cache-control': 'private, max-age=0, must-revalidate' }),
        'x-content-type-options': 'nosniff',
        // An original is a stranger's file: nothing in it may run.
        'content-security-policy': "sandbox; default-src 'none'",
        'content-disposition': shown.includes(mediaType)
          ? 'inline'
          : 'attachment',
      },
    })
  },
})
