'use client'

import {
  type ReactNode,
  useEffect,
  useState,
  useSyncExternalStore,
} from 'react'
import { readLight } from './read-light.client'

/** One thing to choose, with its name. */
type Choice = {
  readonly id: string
  readonly name: string
  /** Photos that show it. */
  readonly photos?: readonly string[]
  /** What these show, for those who do not see them. */
  readonly alternative?: string
}

type Shape = Choice & { readonly width: number; readonly height: number }

/** Design and ground, and what stands on the sheet, by their ids. */
type Look = {
  readonly design: string
  readonly ground: string
  readonly elements: readonly string[]
  readonly light: string
}

/**
 * Makes a sheet: its shape, what it shows, its design, ground and elements, seen at once, to be downloaded and, where the
 * browser can, handed to another program.
 */
export function SheetMaker({
  job,
  photos,
  shapes,
  shows,
  designs,
  grounds,
  elements,
  lights,
  look,
  keepLook,
  shown,
  pairs,
  story,
  makesVideo,
  alternative,
}: {
  readonly job: string
  /** The pair that is shown, as a query. */
  readonly photos: string
  readonly shapes: readonly Shape[]
  readonly shows: readonly Choice[]
  readonly designs: readonly Choice[]
  readonly grounds: readonly Choice[]
  readonly elements: readonly Choice[]
  readonly lights: readonly Choice[]
  /** How it looks at first: as the last sheet of the workshop did. */
  readonly look: Look
  /** Keeps how it looks for the next sheet. */
  readonly keepLook: (look: Look) => Promise<void>
  /** The pair that is shown, where it is kept as one. */
  readonly shown: string | undefined
  /** For a grid: the pairs there are; the first six are on it. */
  readonly pairs: readonly Choice[]
  /** For a story: the photos of its steps, in order, and whether each is in it. */
  readonly story: readonly (Choice & { readonly chosen: boolean })[]
  readonly makesVideo: boolean
  readonly alternative: string
}) {
  const [shape, setShape] = useState(shapes[0]?.id ?? '1x1')
  const [asked, setShow] = useState('pair')
  // Pairs may be found or separated meanwhile; what was chosen stays as long as it is there.
  const show = shows.some(({ id }) => id === asked) ? asked : 'pair'
  const [{ design, ground, elements: on, light }, setLook] = useState(look)
  const change = (part: Partial<Look>) => {
    const changed = { design, ground, elements: on, light, ...part }
    setLook(changed)
    // It is a convenience: where it cannot be kept, this sheet is made all the same.
    keepLook(changed).catch(() => undefined)
  }
  const [chosenGrid, setGrid] = useState<readonly string[]>()
  const grid = stillThere(pairs, chosenGrid) ?? idsOf(pairs.slice(0, 6))
  const [chosenSteps, setSteps] = useState<readonly string[]>()
  const steps =
    stillThere(story, chosenSteps) ??
    idsOf(story.filter(({ chosen }) => chosen))
  const size = shapes.find(({ id }) => id === shape)
  const isStory = show === 'story' || show === 'steps'
  const query = new URLSearchParams(photos)
  query.set('show', show)
  query.set('design', design)
  query.set('ground', ground)
  query.set('elements', on.join(','))
  if (light !== 'as-taken') query.set('light', light)
  if (show === 'grid') query.set('pairs', grid.join(','))
  if (show === 'story') query.set('photos', steps.join(','))
  const told =
    show === 'grid' && grid.length > 0
      ? alternativesOf(pairs, grid)
      : show === 'story'
        ? [alternative, ...alternativesOf(story, steps)]
        : show === 'steps'
          ? [alternative, ...alternativesOf(story, idsOf(story))]
          : [alternative]
  const at = (file: string) =>
    `/api/jobs/${job}/sheets/${file}?${query.toString()}`
  const picture = at(`${shape}.jpg`)
  const [drawn, setDrawn] = useState(picture)
  return (
    <div className="flex flex-col gap-5 lg:grid lg:grid-cols-2 lg:items-start lg:gap-8">
      <div className="contents min-w-0 lg:sticky lg:top-4 lg:block">
        <div className="bg-ground [@media(min-height:34rem)]:sticky top-0 z-10 -mx-4 px-4 pt-2 lg:static lg:m-0 lg:p-0">
          <img
            src={picture}
            srcSet={size && pictureSizes(picture, at(`${shape}.webp`), size)}
            sizes={
              size &&
              // At a desk somewhat more than its column, for words that are drawn larger than their pixels are not sharp.
              `(min-width: 64rem) 40rem, min(100vw - 2rem, 30vh * ${size.width / size.height})`
            }
            alt={told.join(' ')}
            width={size?.width}
            height={size?.height}
            fetchPriority="high"
            onLoad={() => {
              setDrawn(picture)
            }}
            // Its room is kept while it is drawn.
            style={
              size && {
                aspectRatio: `${size.width} / ${size.height}`,
                width: `min(100% - 2px, var(--most-high) * ${size.width / size.height})`,
              }
            }
            className="card bg-well mx-auto box-content h-auto object-contain [--most-high:30vh] lg:[--most-high:75vh]"
          />
          <p role="status" className="text-small min-h-6 py-1">
            {drawn === picture ? '' : 'Drawing …'}
          </p>
        </div>
        <div className="order-last lg:mt-1">
          <p className="flex flex-wrap gap-3">
            <a href={picture} download className="button button-main">
              Download the {size?.name.toLowerCase()} sheet
            </a>
            <ShareButton address={picture} />
            <a href={at(`${shape}.png`)} download className="button">
              As PNG
            </a>
            <a href={at(`${shape}.webp`)} download className="button">
              As WebP
            </a>
            <a href={at('a4.pdf')} download className="button">
              A4 PDF
            </a>
            <a href={at('letter.pdf')} download className="button">
              US letter PDF
            </a>
          </p>
          {show === 'pair' && (
            <p className="mt-3 flex flex-wrap items-center gap-3">
              <a href={at(`${shape}-reveal.webp`)} download className="button">
                Moving picture (WebP)
              </a>
              {makesVideo ? (
                <a href={at(`${shape}-reveal.mp4`)} download className="button">
                  Video (MP4)
                </a>
              ) : (
                <span className="text-ink-soft text-small">
                  A video needs ffmpeg, which is not on the workshop’s computer.
                </span>
              )}
            </p>
          )}
        </div>
      </div>
      <div className="flex min-w-0 flex-col gap-5">
        <One legend="Shape" choices={shapes} value={shape} set={setShape} />
        <One legend="It shows" choices={shows} value={show} set={setShow} />
        {show === 'grid' && (
          <Several
            legend="Pairs, up to six"
            choices={pairs}
            values={grid}
            most={6}
            set={setGrid}
            none="They are still being found."
          />
        )}
        {show === 'story' && (
          <Several
            legend="Steps between before and after"
            choices={story}
            values={steps}
            most={10}
            set={setSteps}
          />
        )}
        <One
          legend="Light of the after"
          choices={lights}
          value={light}
          set={(id) => {
            change({ light: id })
          }}
        >
          <p className="text-ink-soft text-small">
            For a sale listing leave it as taken.
            {isStory && ' The steps between always stay as taken.'}
          </p>
          {light === 'matched' && (
            <Lights
              job={job}
              pairs={
                show === 'grid'
                  ? pairs.filter(({ id }) => grid.includes(id))
                  : pairs.filter(({ id }) => id === shown)
              }
            />
          )}
        </One>
        <One
          legend="Design"
          choices={designs}
          value={design}
          set={(id) => {
            change({ design: id })
          }}
        />
        <One
          legend="Ground"
          choices={grounds}
          value={ground}
          set={(id) => {
            change({ ground: id })
          }}
        />
        <Several
          legend="On it"
          choices={elements}
          values={on}
          most={elements.length}
          least={0}
          set={(ids) => {
            change({ elements: ids })
          }}
        />
      </div>
    </div>
  )
}

/** What the picture is chosen from: parts of its width for a small screen, which are there sooner, and the whole. */
function pictureSizes(
  whole: string,
  smaller: string,
  { width }: Shape,
): string {
  const parts = [width / 2, (width * 3) / 4].map(
    (part) => `${smaller}&width=${part} ${part}w`,
  )
  return [...parts, `${whole} ${width}w`].join(', ')
}

function idsOf(choices: readonly Choice[]): readonly string[] {
  return choices.map(({ id }) => id)
}

/** What was chosen, without what is gone; undefined when nothing was chosen or all of it is gone. */
function stillThere(
  choices: readonly Choice[],
  ids: readonly string[] = [],
): readonly string[] | undefined {
  const left = ids.filter((id) => choices.some((one) => one.id === id))
  return left.length === 0 ? undefined : left
}

function alternativesOf(
  choices: readonly Choice[],
  ids: readonly string[],
): readonly string[] {
  return choices
    .filter(({ id }) => ids.includes(id))
    .flatMap((one) => one.alternative ?? [])
}

function One({
  legend,
  choices,
  value,
  set,
  children,
}: {
  readonly legend: string
  readonly choices: readonly Choice[]
  readonly value: string
  readonly set: (id: string) => void
  /** Stands below the choices. */
  readonly children?: ReactNode
}) {
  return (
    <Group legend={legend} below={children}>
      {choices.map(({ id, name }) => (
        <Option key={id} name={name}>
          <input
            type="radio"
            name={legend}
            value={id}
            checked={id === value}
            onChange={() => {
              set(id)
            }}
            className="size-6 shrink-0 scroll-mt-[42vh] accent-(--press) lg:scroll-mt-4"
          />
        </Option>
      ))}
    </Group>
  )
}

/** Several of the choices; they keep the order of the choices, whatever the order of the taps. */
function Several({
  legend,
  choices,
  values,
  most,
  least = 1,
  none,
  set,
}: {
  readonly legend: string
  readonly choices: readonly Choice[]
  readonly values: readonly string[]
  readonly most: number
  readonly least?: number
  /** Said where there is nothing to choose. */
  readonly none?: string
  readonly set: (ids: readonly string[]) => void
}) {
  return (
    <Group legend={legend}>
      {choices.length === 0 && <p>{none}</p>}
      {choices.map(({ id, name, photos = [] }) => {
        const isOn = values.includes(id)
        return (
          <Option key={id} name={name} photos={photos}>
            <input
              type="checkbox"
              name={legend}
              value={id}
              checked={isOn}
              disabled={isOn ? values.length <= least : values.length >= most}
              onChange={() => {
                set(
                  idsOf(choices).filter((one) =>
                    one === id ? !isOn : values.includes(one),
                  ),
                )
              }}
              className="size-6 shrink-0 scroll-mt-[42vh] accent-(--press) lg:scroll-mt-4"
            />
          </Option>
        )
      })}
    </Group>
  )
}

function Group({
  legend,
  below,
  children,
}: {
  readonly legend: string
  readonly below?: ReactNode
  readonly children: ReactNode
}) {
  return (
    <fieldset className="min-w-0">
      <legend className="mb-2 font-semibold">{legend}</legend>
      <div className="flex flex-wrap gap-2">{children}</div>
      {below !== undefined && <div className="mt-2">{below}</div>}
    </fieldset>
  )
}

function Option({
  name,
  photos = [],
  children,
}: {
  readonly name: string
  readonly photos?: readonly string[]
  readonly children: ReactNode
}) {
  return (
    <label className="card border-line-strong has-checked:border-press has-checked:ring-press flex min-h-12 cursor-pointer items-center gap-2 px-3 py-2 has-checked:ring-1 has-focus-visible:outline-3 has-focus-visible:outline-(--press)">
      {children}
      {photos.map((photo) => (
        <img
          key={photo}
          src={`/api/photos/${photo}/thumb`}
          alt=""
          width={64}
          height={48}
          loading="lazy"
          className="bg-well h-12 w-16 shrink-0 object-cover"
        />
      ))}
      <span>{name}</span>
    </label>
  )
}

/** What matching does to the light of each pair, or why it is left as it was. */
function Lights({
  job,
  pairs,
}: {
  readonly job: string
  readonly pairs: readonly Choice[]
}) {
  const [told, setTold] = useState<Readonly<Record<string, string>>>({})
  const ids = pairs.map(({ id }) => id).join(' ')
  useEffect(() => {
    let isOver = false
    const ask = async () => {
      for (const id of ids.split(' ').filter((one) => one !== '')) {
        const { said } = await readLight(`/api/jobs/${job}/pairs/${id}/light`)
        if (isOver) return
        setTold((known) => ({ ...known, [id]: said }))
      }
    }
    void ask()
    return () => {
      isOver = true
    }
  }, [job, ids])
  if (pairs.length === 0) {
    return (
      <p role="status" className="text-small">
        The light is left as it was: these two photos are not kept as a pair
        that lies on each other.
      </p>
    )
  }
  return (
    <ul role="status" className="text-small">
      {pairs.map(({ id, name }) => (
        <li key={id}>
          {pairs.length > 1 && (
            <span className="font-semibold first-letter:uppercase inline-block">
              {name}:&nbsp;
            </span>
          )}
          {told[id] ?? 'Looking …'}
        </li>
      ))}
    </ul>
  )
}

const never = () => () => undefined

/** Hands the picture to another program of the phone; not there where the browser cannot. */
function ShareButton({ address }: { readonly address: string }) {
  const shares = useSyncExternalStore(
    never,
    () => 'share' in navigator && 'canShare' in navigator,
    () => false,
  )
  const [told, setTold] = useState('')
  if (!shares) return null
  const share = async () => {
    setTold('')
    try {
      const answer = await fetch(address)
      const file = new File([await answer.blob()], 'before-and-after.jpg', {
        type: 'image/jpeg',
      })
      if (!answer.ok || !navigator.canShare({ files: [file] })) {
        setTold('This browser cannot share pictures. Download it instead.')
        return
      }
      await navigator.share({ files: [file] })
    } catch (error) {
      // Whoever closes the list of programs knows that nothing was shared.
      if (error instanceof DOMException && error.name === 'AbortError') return
      setTold('It could not be shared. Download it instead.')
    }
  }
  return (
    <>
      <button type="button" className="button" onClick={() => void share()}>
        Share
      </button>
      <span role="status" className="text-small self-center empty:hidden">
        {told}
      </span>
    </>
  )
}
