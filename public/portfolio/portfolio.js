/*
 * What the pages of the portfolio do beyond being read: wiping pairs, one picture over the page, filtering. All of it also
 * works from a folder of files; without it the pages can be read, and pictures open as files.
 */
'use strict'

/** A line to draw across a pair: by finger or mouse anywhere on the picture, or by the arrow keys. */
function wipe(figure) {
  const frame = figure.querySelector('.wipe-frame')
  const line = document.createElement('span')
  line.className = 'wipe-line'
  line.setAttribute('aria-hidden', 'true')
  const range = document.createElement('input')
  range.type = 'range'
  range.className = 'wipe-range'
  range.min = '0'
  range.max = '100'
  range.value = '50'
  range.setAttribute(
    'aria-label',
    `How much of the before to show: ${figure.dataset.wipe}`,
  )
  const show = () => {
    frame.style.setProperty('--share', `${range.value}%`)
    range.setAttribute(
      'aria-valuetext',
      `${range.value} % before, ${100 - Number(range.value)} % after`,
    )
  }
  range.addEventListener('input', show)
  show()
  frame.append(line, range)
}

/** Opens the pictures of a page over it; keys, buttons and swipes go from one to the next. */
function gallery(links) {
  const pictures = links.map((link) => ({
    address: link.href,
    words: link.querySelector('img')?.alt ?? '',
  }))
  const viewer = document.createElement('dialog')
  viewer.className = 'viewer'
  viewer.setAttribute('aria-label', 'Picture')
  const inside = document.createElement('div')
  inside.className = 'viewer-inside'
  const bar = document.createElement('div')
  bar.className = 'viewer-bar'
  const button = (words, press) => {
    const made = document.createElement('button')
    made.type = 'button'
    made.textContent = words
    made.addEventListener('click', press)
    return made
  }
  const place = document.createElement('span')
  place.setAttribute('role', 'status')
  const picture = document.createElement('img')
  picture.className = 'viewer-picture'
  const words = document.createElement('p')
  words.className = 'viewer-words'
  let at = 0
  const go = (to) => {
    at = (to + pictures.length) % pictures.length
    picture.src = pictures[at].address
    picture.alt = pictures[at].words
    words.textContent = pictures[at].words
    place.textContent = `${at + 1} of ${pictures.length}`
    // The next one is there when it is asked for.
    if (pictures.length > 1) {
      new Image().src = pictures[(at + 1) % pictures.length].address
    }
  }
  const steps = document.createElement('span')
  if (pictures.length > 1) {
    steps.append(
      button('Previous', () => go(at - 1)),
      ' ',
      button('Next', () => go(at + 1)),
    )
  }
  bar.append(
    steps,
    place,
    button('Close', () => viewer.close()),
  )
  inside.append(bar, picture, words)
  viewer.append(inside)
  document.body.append(viewer)
  viewer.addEventListener('keydown', (event) => {
    if (event.key === 'ArrowLeft') go(at - 1)
    else if (event.key === 'ArrowRight') go(at + 1)
    else if (event.key === 'Home') go(0)
    else if (event.key === 'End') go(pictures.length - 1)
    else return
    event.preventDefault()
  })
  viewer.addEventListener('close', () => links[at].focus())
  // A swipe: further across than a slip of the finger, and more across than down.
  let from
  picture.addEventListener('touchstart', (event) => {
    from = event.touches.length === 1 ? event.touches[0] : undefined
  })
  picture.addEventListener('touchend', (event) => {
    const to = event.changedTouches[0]
    if (from === undefined || to === undefined) return
    const across = to.clientX - from.clientX
    const down = to.clientY - from.clientY
    from = undefined
    if (Math.abs(across) < 40 || Math.abs(across) < Math.abs(down)) return
    go(across < 0 ? at + 1 : at - 1)
  })
  links.forEach((link, index) => {
    link.addEventListener('click', (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return
      event.preventDefault()
      go(index)
      viewer.showModal()
    })
  })
}

/** Shows only the pieces that have what was chosen. What was chosen stands in the address, so that it can be sent on. */
function filter(form) {
  const cards = [...document.querySelectorAll('.card')]
  const status = document.querySelector('.none')
  const selects = [...form.querySelectorAll('select')]
  const apply = () => {
    let shown = 0
    for (const card of cards) {
      const fits = selects.every(
        ({ name, value }) =>
          value === '' || card.dataset[name].split('|').includes(value),
      )
      card.hidden = !fits
      if (fits) shown += 1
    }
    const chosen = selects.some(({ value }) => value !== '')
    status.textContent = !chosen
      ? ''
      : shown === 0
        ? 'No piece has all of that.'
        : `${shown} of ${cards.length} pieces.`
  }
  const read = () => {
    const wanted = new URLSearchParams(location.hash.slice(1))
    for (const select of selects) {
      const value = wanted.get(select.name) ?? ''
      select.value = [...select.options].some((one) => one.value === value)
        ? value
        : ''
    }
    apply()
  }
  form.addEventListener('change', () => {
    const chosen = new URLSearchParams(
      selects
        .filter(({ value }) => value !== '')
        .map(({ name, value }) => [name, value]),
    )
    history.replaceState(null, '', `#${chosen}`)
    apply()
  })
  form.addEventListener('submit', (event) => event.preventDefault())
  addEventListener('hashchange', read)
  form.hidden = false
  read()
}

for (const figure of document.querySelectorAll('.wipe')) wipe(figure)
const links = [...document.querySelectorAll('.gallery-link')]
if (links.length > 0) gallery(links)
const form = document.querySelector('.filter')
if (form !== null) filter(form)
