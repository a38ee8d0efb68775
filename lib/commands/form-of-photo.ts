/** As long as browsers make them: the longer it is, the faster it is searched for. */
const boundary = '----WebKitFormBoundary7MA4YWxkTrZu0gW0'

/** What a browser sends around the bytes of one photo: ready made, since what it costs to make is the phone's affair. */
export const formOfPhoto = {
  contentType: `multipart/form-data; boundary=${boundary}`,
  before: Buffer.from(
    `--${boundary}\r\nContent-Disposition: form-data; name="file"; filename="photo.jpg"\r\nContent-Type: image/jpeg\r\n\r\n`,
  ),
  after: Buffer.from(`\r\n--${boundary}--\r\n`),
} as const
