// Plain JavaScript: a thread starts from this very file, also under a server that was built, and needs no compiler.
import { readFileSync } from 'node:fs'
import { parentPort, workerData } from 'node:worker_threads'

/** The limits of a thread do not count what WebAssembly takes, so its growth is held here. */
const grow = WebAssembly.Memory.prototype.grow
WebAssembly.Memory.prototype.grow = function (pages) {
  if (this.buffer.byteLength + pages * 65_536 > workerData.maximumBytes) {
    throw new RangeError('the decoder asked for too much memory')
  }
  return grow.call(this, pages)
}

/**
 * Decodes the primary picture of one HEIC file, turned, mirrored and cropped as the file says, and ends. It has a
 * thread of its own: the decoder works without a pause, and what it has taken of memory it gives back only by ending.
 *
 * Given `HeicTask`, it answers with a `HeicAnswer` (decode-heic.ts).
 */
async function decode({ file, maximumPixels, headBytes }) {
  // Only now: what it takes first counts as well.
  const { default: starting } = await import('libheif-js/wasm-bundle.js')
  const heif = await starting
  const source = readFileSync(file)
  const opened = openPrimary(heif, source)
  if (opened.failure !== undefined) return opened
  let picture = decodePrimary(heif, opened.handle)
  if (/security limit/i.test(picture.failure ?? '') && dropCrops(source)) {
    // It takes the size after the crop for the most that the coded picture may have. Decoded whole, it is cropped here.
    const whole = openPrimary(heif, source)
    if (whole.failure !== undefined) return whole
    picture = decodePrimary(heif, whole.handle)
  }
  if (picture.failure !== undefined) return picture
  const { plane } = picture
  const width = Math.min(opened.width, plane.width)
  const height = Math.min(opened.height, plane.height)
  // A header may promise less than the coded picture holds.
  if (plane.width * plane.height > maximumPixels) {
    return { failure: 'pixel limit' }
  }
  const left = Math.floor((plane.width - width) / 2)
  const top = Math.floor((plane.height - height) / 2)
  const rowBytes = width * 3
  const bytes = new Uint8Array(headBytes + rowBytes * height)
  for (let row = 0; row < height; row += 1) {
    const from = (top + row) * plane.stride + left * 3
    const part = plane.data.subarray(from, from + rowBytes)
    bytes.set(part, headBytes + row * rowBytes)
  }
  return { width, height, bytes }
}

function openPrimary(heif, source) {
  const context = heif.heif_context_alloc()
  const read = heif.heif_context_read_from_memory(context, source)
  if (read.code !== heif.heif_error_code.heif_error_Ok) {
    return { failure: read.message }
  }
  const handle = heif.heif_js_context_get_primary_image_handle(context)
  if (handle.code !== undefined) return { failure: handle.message }
  return {
    handle,
    width: heif.heif_image_handle_get_width(handle),
    height: heif.heif_image_handle_get_height(handle),
  }
}

function decodePrimary(heif, handle) {
  const decoded = heif.heif_js_decode_image2(
    handle,
    heif.heif_colorspace.heif_colorspace_RGB,
    heif.heif_chroma.heif_chroma_interleaved_RGB,
  )
  const plane = decoded.channels?.[0]
  return plane === undefined
    ? { failure: decoded.message ?? 'no picture in it' }
    : { plane }
}

/**
 * Makes the crops in a file's head count for nothing, when each keeps the middle: then it does not matter whether the
 * picture is turned before or after. Source: ISO/IEC 14496-12 section 12.1.4.1 (clap).
 */
function dropCrops(source) {
  const head = source.subarray(0, 65_536)
  let found = false
  for (
    let at = head.indexOf('clap', 0, 'latin1');
    at !== -1;
    at = head.indexOf('clap', at + 1, 'latin1')
  ) {
    if (at + 36 > head.byteLength) return false
    // Numerators of the offsets of the centre, across and down.
    if (head.readInt32BE(at + 20) !== 0 || head.readInt32BE(at + 28) !== 0) {
      return false
    }
    head.write('free', at, 'latin1')
    found = true
  }
  return found
}

const answer = await decode(workerData).catch((error) => ({
  failure: error instanceof Error ? error.message : String(error),
}))
parentPort.postMessage(answer, answer.bytes ? [answer.bytes.buffer] : [])
