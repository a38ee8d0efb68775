// Plain JavaScript: a thread starts from this very file, also under a server that was built, and needs no compiler.
import { createRequire } from 'node:module'
import { parentPort, workerData } from 'node:worker_threads'

/** The limits of a thread do not count what WebAssembly takes, so its growth is held here. */
const grow = WebAssembly.Memory.prototype.grow
let hasGrown = false
WebAssembly.Memory.prototype.grow = function (pages) {
  if (this.buffer.byteLength + pages * 65_536 > workerData.maximumBytes) {
    throw new RangeError('the alignment asked for too much memory')
  }
  hasGrown = true
  return grow.call(this, pages)
}

// Required: an import would first read through its ten megabytes for what they export. Never awaited itself: it has a
// `then` that answers with itself, without end.
const require = createRequire(import.meta.url)
const cv = require('@techstark/opencv-js')
if (cv.Mat === undefined) {
  await new Promise((resolve) => {
    cv.onRuntimeInitialized = resolve
  })
}

/** Longer side, in pixels, of what is searched for the rough position. */
const searchSide = 160
/** How far the search goes: enlargements and turns, each step within reach of the matching that follows. */
const enlargements = [0.71, 0.77, 0.84, 0.92, 1, 1.09, 1.19, 1.3, 1.41]
const turns = [-8, -4, 0, 4, 8]
/** Part of the picture that it may have moved, either way. */
const reach = 0.35
/** Gradients of a few grey levels are noise. */
const noiseFloor = 6
/** How different from the lighting between the two photos a colour must be to count as changed: a factor of e^0.3. */
const changeThreshold = 0.3

/** Everything taken of OpenCV's memory in a task, to be given back at its end: nothing there is collected. */
let taken = []
function held(thing) {
  taken.push(thing)
  return thing
}

/** The pair: of each picture its greys and its colours. */
let pictures = []

/** What was made of the pair and stays the same under every map, by a name; given back with the pair. */
let known = new Map()

/** Takes in a pair; all but `warp` then work on it. */
function open({ before, after }) {
  for (const { grey, colour } of pictures) {
    grey.delete()
    colour.delete()
  }
  for (const thing of known.values()) {
    if (thing instanceof cv.Mat) thing.delete()
  }
  known = new Map()
  pictures = [before, after].map((picture) => {
    const colour = matOf(picture)
    const grey = new cv.Mat()
    cv.cvtColor(colour, grey, cv.COLOR_RGB2GRAY)
    return { grey, colour }
  })
  return {}
}

/** Something made of the pair alone: kept until there is another one. */
function ofPair(name, make) {
  if (known.has(name)) return known.get(name)
  const made = make()
  taken = taken.filter((thing) => thing !== made)
  known.set(name, made)
  return made
}

/** A picture brought through a map into a frame. */
function warp({ picture, homography, width, height }) {
  const source = held(matOf(picture))
  const map = within(homography, 1, 1)
  const frame = { cols: width, rows: height }
  const warped = underMap(source, map, frame, cv.BORDER_REPLICATE)
  return { data: warped.data.slice() }
}

function matOf({ data, width, height }) {
  const colour = new cv.Mat(height, width, cv.CV_8UC3)
  colour.data.set(data)
  return colour
}

/**
 * Where the after may lie over the before, by trying small turns and enlargements with every shift: the cosine of the
 * two pictures' edge fields. Answers with the best few, as maps of the pictures' own pixels.
 */
function search() {
  const [before, after] = reducedPair('grey', searchSide)
  const field = edgeField(before.picture)
  const fit = shiftFinder(field)
  const size = lengthOf(field)
  const found = []
  const ratio =
    Math.hypot(field.cols, field.rows) /
    Math.hypot(after.picture.cols, after.picture.rows)
  for (const enlargement of enlargements) {
    for (const degrees of turns) {
      const map = turnedAboutMiddle(
        after.picture,
        field,
        enlargement * ratio,
        (degrees * Math.PI) / 180,
      )
      const shown = edgeFieldUnder(after.picture, map, field)
      const { x, y, product } = fit(shown)
      const homography = [...map]
      homography[2] += x
      homography[5] += y
      found.push({ score: product / (lengthOf(shown) * size), homography })
    }
  }
  found.sort((one, other) => other.score - one.score)
  return {
    candidates: found.slice(0, 3).map(({ score, homography }) => ({
      score,
      homography: between(homography, after.scale, before.scale),
    })),
  }
}

/**
 * Finds the shift, of up to `reach` of the picture either way, under which another field of the same size has the largest
 * product with this one. Both are taken as pictures of complex numbers, so that one transform serves for both parts of a
 * field, and this one's is made once.
 *
 * Source: A. V. Oppenheim and R. W. Schafer, "Discrete-Time Signal Processing", 3rd ed. (2010), section 8.7 (correlation
 * by the discrete Fourier transform), cited from memory.
 */
function shiftFinder(field) {
  const { rows, cols } = field
  const across = Math.round(cols * reach)
  const down = Math.round(rows * reach)
  // What a shift pushes over one rim comes in at the other, where nothing may stand.
  const width = cv.getOptimalDFTSize(cols + across)
  const height = cv.getOptimalDFTSize(rows + down)
  const spectrum = (source, left, top) => {
    const padded = held(new cv.Mat())
    cv.copyMakeBorder(
      source,
      padded,
      top,
      height - rows - top,
      left,
      width - cols - left,
      cv.BORDER_CONSTANT,
      new cv.Scalar(0, 0, 0, 0),
    )
    cv.dft(padded, padded, 0, top + rows)
    return padded
  }
  const whole = spectrum(field, across, down)
  return (other) => {
    const products = spectrum(other, 0, 0)
    multiplyByConjugates(products.data32F, whole.data32F)
    cv.dft(products, products, cv.DFT_INVERSE | cv.DFT_SCALE, 0)
    const values = products.data32F
    let best = { x: 0, y: 0, product: -Infinity }
    for (let y = 0; y <= 2 * down; y += 1) {
      for (let x = 0; x <= 2 * across; x += 1) {
        const product = values[2 * (y * width + x)]
        if (product > best.product) {
          best = { x: x - across, y: y - down, product }
        }
      }
    }
    return best
  }
}

/** Complex numbers, each to be its conjugate times another's. */
function multiplyByConjugates(numbers, others) {
  for (let at = 0; at < numbers.length; at += 2) {
    const [a, b] = [others[at], others[at + 1]]
    const [c, d] = [numbers[at], numbers[at + 1]]
    numbers[at] = a * c + b * d
    numbers[at + 1] = b * c - a * d
  }
}

/** Points that look alike in both pictures, by binary features: from the after to the before, four numbers each. */
function features({ side }) {
  const [before, after] = reducedPair('grey', side).map((one) => {
    const { picture, scale } = one
    const detector = held(new cv.AKAZE())
    const points = held(new cv.KeyPointVector())
    const descriptors = held(new cv.Mat())
    detector.detectAndCompute(picture, held(new cv.Mat()), points, descriptors)
    return { scale, points, descriptors }
  })
  const matches = []
  if (before.points.size() > 1 && after.points.size() > 1) {
    const matcher = held(new cv.BFMatcher(cv.NORM_HAMMING, false))
    const nearest = held(new cv.DMatchVectorVector())
    matcher.knnMatch(after.descriptors, before.descriptors, nearest, 2)
    for (let index = 0; index < nearest.size(); index += 1) {
      const two = held(nearest.get(index))
      if (two.size() < 2) continue
      const first = two.get(0)
      if (first.distance > 0.8 * two.get(1).distance) continue
      const from = after.points.get(first.queryIdx).pt
      const to = before.points.get(first.trainIdx).pt
      matches.push(
        (from.x + 0.5) / after.scale,
        (from.y + 0.5) / after.scale,
        (to.x + 0.5) / before.scale,
        (to.y + 0.5) / before.scale,
      )
    }
  }
  return { matches: Float64Array.from(matches) }
}

/**
 * With the after brought over the before by a map: small patches of it, each found again near by in the before. Answers
 * six numbers each: where in the after, where in the before, how alike (-1 to 1), and how much of the patch changed
 * colour (0 to 1).
 */
function patches({ homography, side, half, radius }) {
  const [before, after] = reducedPair('grey', side)
  const map = within(homography, after.scale, before.scale)
  const field = ofPair(`field ${side}`, () => edgeField(before.picture))
  const spread = ofPair(`spread ${side} ${half}`, () => spreadOf(field, half))
  const shown = edgeFieldUnder(after.picture, map, field)
  const change = changedShare(homography, before.picture)
  const undo = invertedMap(map)
  const fit = held(new cv.Mat())
  const found = []
  for (const { x, y } of cornersOf(spread, shown, half, half + radius)) {
    const patch = shown.roi(around(x, y, half))
    const near = field.roi(around(x, y, half + radius))
    cv.matchTemplate(near, patch, fit, cv.TM_CCORR_NORMED)
    patch.delete()
    near.delete()
    const peak = peakOf(fit)
    if (peak === undefined) continue
    const from = mapPoint(undo, x, y)
    found.push(
      (from.x + 0.5) / after.scale,
      (from.y + 0.5) / after.scale,
      (x + peak.x - radius + 0.5) / before.scale,
      (y + peak.y - radius + 0.5) / before.scale,
      peak.score,
      change(x, y, half),
    )
  }
  return { matches: Float64Array.from(found) }
}

/** The grey pixels of the before and, over them, those of the after, where both show something. */
function overlap({ homography, side }) {
  const [before, after] = reducedPair('grey', side)
  const map = within(homography, after.scale, before.scale)
  const warped = underMap(
    after.picture,
    map,
    before.picture,
    cv.BORDER_REPLICATE,
  )
  const { cols, rows } = before.picture
  const inside = new Uint8Array(cols * rows)
  for (const { from, to } of insideUnder(after.picture, map, before.picture)) {
    inside.fill(255, from, to)
  }
  return {
    width: cols,
    height: rows,
    before: before.picture.data.slice(),
    after: warped.data.slice(),
    inside,
  }
}

/**
 * The edges of a picture with their direction, but blind to which side is the darker: a coat of paint turns dark on light
 * into light on dark. Two numbers a pixel, the gradient's angle doubled, as long as the root of its strength.
 *
 * Source: G. H. Granlund, "In search of a general picture processing operator", Computer Graphics and Image Processing 8
 * (1978) 155-173 (doubling the angle), cited from memory.
 */
function edgeField(grey) {
  const smooth = held(new cv.Mat())
  grey.convertTo(smooth, cv.CV_32F)
  cv.GaussianBlur(smooth, smooth, new cv.Size(0, 0), 1)
  const across = held(new cv.Mat())
  const down = held(new cv.Mat())
  cv.Sobel(smooth, across, cv.CV_32F, 1, 0, 3, 0.25)
  cv.Sobel(smooth, down, cv.CV_32F, 0, 1, 3, 0.25)
  const field = held(new cv.Mat(grey.rows, grey.cols, cv.CV_32FC2))
  const x = across.data32F
  const y = down.data32F
  const out = field.data32F
  for (let at = 0; at < x.length; at += 1) {
    const strength = Math.sqrt(x[at] * x[at] + y[at] * y[at]) + noiseFloor
    const share = 1 / (strength * Math.sqrt(strength))
    out[2 * at] = (x[at] * x[at] - y[at] * y[at]) * share
    out[2 * at + 1] = 2 * x[at] * y[at] * share
  }
  return field
}

/** The edge field of the after brought over the before; nothing where the after does not reach. */
function edgeFieldUnder(grey, map, before) {
  const field = edgeField(underMap(grey, map, before, cv.BORDER_REPLICATE))
  const out = field.data32F
  let end = 0
  for (const { from, to } of insideUnder(grey, map, before)) {
    out.fill(0, 2 * end, 2 * from)
    end = to
  }
  out.fill(0, 2 * end)
  return field
}

function underMap(picture, map, { cols, rows }, border) {
  const matrix = held(cv.matFromArray(3, 3, cv.CV_64F, map))
  const warped = held(new cv.Mat())
  const size = new cv.Size(cols, rows)
  cv.warpPerspective(
    picture,
    warped,
    matrix,
    size,
    cv.INTER_LINEAR,
    border,
    new cv.Scalar(),
  )
  return warped
}

/**
 * Where the after, brought over the before, shows something: of each row of the before the first pixel and the one past
 * the last, counted through all of the picture. A pixel is inside when the place in the after that it is taken from lies
 * between the middles of the outermost pixels; OpenCV rounds that place to a 32nd of a pixel.
 */
function insideUnder(picture, map, { cols, rows }) {
  const [a, b, c, d, e, f, g, h, i] = invertedMap(map)
  const rounding = 1 / 64
  const right = picture.cols - 1 + rounding
  const bottom = picture.rows - 1 + rounding
  // Each is at least 0 inside: so much for a pixel across, so much for one down, and so much to begin with.
  const edges = [
    [g, h, i],
    [a + rounding * g, b + rounding * h, c + rounding * i],
    [d + rounding * g, e + rounding * h, f + rounding * i],
    [right * g - a, right * h - b, right * i - c],
    [bottom * g - d, bottom * h - e, bottom * i - f],
  ]
  const spans = []
  for (let y = 0; y < rows; y += 1) {
    let first = 0
    let last = cols - 1
    for (const [across, down, start] of edges) {
      const least = -(down * y + start)
      if (across > 0) first = Math.max(first, Math.ceil(least / across))
      else if (across < 0) last = Math.min(last, Math.floor(least / across))
      else if (least > 0) last = -1
    }
    if (first <= last) {
      spans.push({ from: y * cols + first, to: y * cols + last + 1 })
    }
  }
  return spans
}

/**
 * The places where both fields have edges of more than one direction, the best of each cell: along a straight edge alone
 * a patch could slide.
 */
function cornersOf(spread, shown, half, margin) {
  const { rows, cols } = spread
  const cell = Math.max(10, Math.round(Math.sqrt((rows * cols) / 420)))
  const spreadShown = spreadOf(shown, half)
  // Taken last: a view is void once the memory has grown.
  const one = spread.data32F
  const other = spreadShown.data32F
  const best = []
  for (let top = margin; top < rows - margin; top += cell) {
    for (let left = margin; left < cols - margin; left += cell) {
      let most = 0.05
      let place
      for (let y = top; y < Math.min(top + cell, rows - margin); y += 2) {
        for (let x = left; x < Math.min(left + cell, cols - margin); x += 2) {
          const spread = Math.min(one[y * cols + x], other[y * cols + x])
          if (spread > most) {
            most = spread
            place = { x, y }
          }
        }
      }
      if (place !== undefined) best.push(place)
    }
  }
  return best
}

/** How strong the edges across the main direction are around each pixel: the smaller eigenvalue of what they sum to. */
function spreadOf(field, half) {
  const { rows, cols } = field
  const parts = held(new cv.Mat(rows, cols, cv.CV_32FC3))
  const from = field.data32F
  const to = parts.data32F
  for (let at = 0; at < rows * cols; at += 1) {
    const x = from[2 * at]
    const y = from[2 * at + 1]
    to[3 * at] = x
    to[3 * at + 1] = y
    to[3 * at + 2] = Math.sqrt(x * x + y * y)
  }
  const mean = held(new cv.Mat())
  cv.boxFilter(parts, mean, -1, new cv.Size(2 * half + 1, 2 * half + 1))
  const spread = held(new cv.Mat(rows, cols, cv.CV_32FC1))
  const sums = mean.data32F
  const out = spread.data32F
  for (let at = 0; at < out.length; at += 1) {
    const x = sums[3 * at]
    const y = sums[3 * at + 1]
    out[at] = sums[3 * at + 2] - Math.sqrt(x * x + y * y)
  }
  return spread
}

/** The highest place of a fit, to a fraction of a pixel by a parabola each way; none when it lies on the rim. */
function peakOf(fit) {
  const { maxVal, maxLoc } = cv.minMaxLoc(fit)
  const { cols, rows } = fit
  const { x, y } = maxLoc
  if (x === 0 || y === 0 || x === cols - 1 || y === rows - 1) return undefined
  const values = fit.data32F
  const at = y * cols + x
  const across = values[at + 1] + values[at - 1] - 2 * maxVal
  const down = values[at + cols] + values[at - cols] - 2 * maxVal
  if (!(across < 0 && down < 0)) return undefined
  return {
    x: x - (values[at + 1] - values[at - 1]) / (2 * across),
    y: y - (values[at + cols] - values[at - cols]) / (2 * down),
    score: maxVal,
  }
}

/** How much of the surroundings of a place changed colour beyond what the light did to all of the picture. */
function changedShare(homography, { cols }) {
  const [before, after] = reducedPair('colour', searchSide)
  const map = within(homography, after.scale, before.scale)
  const warped = underMap(
    after.picture,
    map,
    before.picture,
    cv.BORDER_REPLICATE,
  )
  const inside = insideUnder(after.picture, map, before.picture)
  const changed = changedPixels(before.picture.data, warped.data, inside)
  const { cols: width, rows: height } = before.picture
  const scale = width / cols
  return (x, y, half) => {
    const reachOf = Math.max(1, Math.round(half * scale))
    const middle = { x: Math.round(x * scale), y: Math.round(y * scale) }
    const left = Math.max(0, middle.x - reachOf)
    const right = Math.min(width - 1, middle.x + reachOf)
    const top = Math.max(0, middle.y - reachOf)
    const bottom = Math.min(height - 1, middle.y + reachOf)
    let sum = 0
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        sum += changed[row * width + column]
      }
    }
    return left > right || top > bottom
      ? 0
      : sum / ((right - left + 1) * (bottom - top + 1))
  }
}

/** The logarithm of each value of a colour, with what keeps the darkest from counting for much. */
const logarithms = Float64Array.from({ length: 256 }, (_, value) =>
  Math.log(value + 8),
)

/** 1 for each pixel in which some colour changed by another factor than in the median of all. */
function changedPixels(one, other, inside) {
  const pixels = one.length / 3
  const changed = new Uint8Array(pixels)
  const ratios = new Float32Array(pixels)
  for (let channel = 0; channel < 3; channel += 1) {
    let count = 0
    for (const { from, to } of inside) {
      for (let at = 3 * from + channel; at < 3 * to; at += 3) {
        ratios[count] = logarithms[other[at]] - logarithms[one[at]]
        count += 1
      }
    }
    const light = medianOf(ratios.slice(0, count))
    count = 0
    for (const { from, to } of inside) {
      for (let at = from; at < to; at += 1) {
        if (Math.abs(ratios[count] - light) > changeThreshold) changed[at] = 1
        count += 1
      }
    }
  }
  return changed
}

/**
 * The value that half of the others are below; the values are put in another order.
 *
 * Source: C. A. R. Hoare, "Algorithm 65: find", Communications of the ACM 4 (1961) 321-322, cited from memory.
 */
function medianOf(values) {
  if (values.length === 0) return 0
  const middle = values.length >> 1
  let low = 0
  let high = values.length - 1
  while (low < high) {
    const pivot = values[(low + high) >> 1]
    let from = low
    let to = high
    while (from <= to) {
      while (values[from] < pivot) from += 1
      while (values[to] > pivot) to -= 1
      if (from <= to) {
        const value = values[from]
        values[from] = values[to]
        values[to] = value
        from += 1
        to -= 1
      }
    }
    if (middle <= to) high = to
    else if (middle >= from) low = from
    else break
  }
  return values[middle]
}

function lengthOf(field) {
  return cv.norm(field, cv.NORM_L2)
}

/**
 * Both pictures, in greys or in colours, no larger than so many pixels on their longer side, and their size as a share of
 * what it was.
 */
function reducedPair(kind, side) {
  return pictures.map((picture, index) =>
    reduced(picture[kind], side, `${kind} ${side} of ${index}`),
  )
}

function reduced(picture, side, name) {
  const scale = Math.min(1, side / Math.max(picture.cols, picture.rows))
  if (scale === 1) return { picture, scale }
  const make = () => {
    const smaller = held(new cv.Mat())
    const size = new cv.Size(
      Math.round(picture.cols * scale),
      Math.round(picture.rows * scale),
    )
    cv.resize(picture, smaller, size, 0, 0, cv.INTER_AREA)
    return smaller
  }
  return { picture: ofPair(name, make), scale }
}

function turnedAboutMiddle(from, to, enlargement, angle) {
  const cos = enlargement * Math.cos(angle)
  const sin = enlargement * Math.sin(angle)
  const x = from.cols / 2
  const y = from.rows / 2
  return [
    cos,
    -sin,
    to.cols / 2 - cos * x + sin * y,
    sin,
    cos,
    to.rows / 2 - sin * x - cos * y,
    0,
    0,
    1,
  ]
}

/**
 * A map between the pictures as one between reduced pictures. Ours counts from the corner of a pixel, OpenCV from its
 * middle.
 */
function within(map, afterScale, beforeScale) {
  return shifted(rescaled(map, afterScale, beforeScale), 0.5)
}

/** And back. */
function between(map, afterScale, beforeScale) {
  return rescaled(shifted(map, -0.5), 1 / afterScale, 1 / beforeScale)
}

function rescaled([a, b, c, d, e, f, g, h, i], from, to) {
  return [
    (a * to) / from,
    (b * to) / from,
    c * to,
    (d * to) / from,
    (e * to) / from,
    f * to,
    g / from,
    h / from,
    i,
  ]
}

/** The same map between pictures whose origin lies so many pixels farther in, across and down. */
function shifted([a, b, c, d, e, f, g, h, i], by) {
  const j = c + by * (a + b)
  const k = f + by * (d + e)
  const l = i + by * (g + h)
  return [
    a - by * g,
    b - by * h,
    j - by * l,
    d - by * g,
    e - by * h,
    k - by * l,
    g,
    h,
    l,
  ]
}

function mapPoint([a, b, c, d, e, f, g, h, i], x, y) {
  const depth = g * x + h * y + i
  return { x: (a * x + b * y + c) / depth, y: (d * x + e * y + f) / depth }
}

function invertedMap([a, b, c, d, e, f, g, h, i]) {
  const determinant =
    a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ].map((value) => value / determinant)
}

function around(x, y, half) {
  return new cv.Rect(x - half, y - half, 2 * half + 1, 2 * half + 1)
}

/** Whether OpenCV took more memory than it began with. */
function grown() {
  return { hasGrown }
}

const tasks = { open, search, features, patches, overlap, warp, grown }

parentPort.on('message', ({ task, ...input }) => {
  try {
    parentPort.postMessage(tasks[task](input))
  } catch (error) {
    // OpenCV throws the address of its exception.
    const failure =
      typeof error === 'number' ? cv.exceptionFromPtr(error).msg : String(error)
    parentPort.postMessage({ failure })
  } finally {
    for (const thing of taken) thing.delete()
    taken = []
  }
})
