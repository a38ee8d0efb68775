import { buffer } from 'node:stream/consumers'
import { fromBuffer } from 'yauzl'

/** The files of a zip by their names, as an independent reader finds them; it checks their sums on the way. */
export async function readZip(
  bytes: Buffer,
): Promise<ReadonlyMap<string, Buffer>> {
  const files = new Map<string, Buffer>()
  await new Promise<void>((resolve, reject) => {
    fromBuffer(bytes, { lazyEntries: true }, (error, zip) => {
      if (error) {
        reject(error)
        return
      }
      zip.on('error', reject)
      zip.on('end', resolve)
      zip.on('entry', (entry: { readonly fileName: string }) => {
        zip.openReadStream(entry as never, (failure, stream) => {
          if (failure) {
            reject(failure)
            return
          }
          buffer(stream).then((content) => {
            files.set(entry.fileName, content)
            zip.readEntry()
          }, reject)
        })
      })
      zip.readEntry()
    })
  })
  return files
}
