/** Text as an answer, in UTF-8; plain unless told otherwise. */
export function textAnswer(text: string, type = 'text/plain'): Response {
  return new Response(text, {
    headers: { 'content-type': `${type}; charset=utf-8` },
  })
}
