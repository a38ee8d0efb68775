import type { Piece, Surface } from '#core/journal/journal'
import type { Appearance, LookOf, Place } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'
import type { Layer, SurfaceWork } from '#core/write-ups/surface-work'

// What is not looked at from across the room: it neither makes nor breaks "painted deep teal".
const inner =
  /\b(hardware|handles?|knobs?|pulls?|hinges?|locks?|castors?|casters?|interior|inside|drawers|back|underside)\b/i

/** Whether a surface is one of those that make the look of a piece. */
export function isOuter({ name }: Surface): boolean {
  return !inner.test(name)
}

/** These surfaces by their piece, in the order given. */
export function placesOf(works: readonly SurfaceWork[]): readonly Place[] {
  const pieces = [...new Set(works.map(({ piece }) => piece))]
  return pieces.map((piece) => ({
    piece,
    surfaces: works
      .filter((work) => work.piece === piece)
      .map(({ surface }) => surface),
  }))
}

/**
 * How the pieces look: one main look, and the surfaces that differ from it.
 *
 * A main look is only said when every outer surface of every piece carries some finish, and every piece has some of it;
 * otherwise each look is told with its surfaces, so that no bare leg is called painted.
 */
export function appearanceOf(
  works: readonly SurfaceWork[],
  pieces: readonly Piece[],
): Appearance {
  const finished = works.filter(({ layers }) => layers.length > 0)
  const looks = looksOf(finished)
  const all = pieces.flatMap(({ surfaces }) => surfaces)
  const outer = all.filter(isOuter)
  // Of knobs alone, the knobs are the look.
  const counted = outer.length > 0 ? outer : all
  const whole =
    counted.length > 0 &&
    counted.every((surface) =>
      finished.some((work) => work.surface.id === surface.id),
    )
  const spread = ({ places }: LookOf) =>
    places
      .flatMap(({ surfaces }) => surfaces)
      .filter(({ id }) => counted.some((surface) => surface.id === id)).length
  const main = looks.toSorted((a, b) => spread(b) - spread(a))[0]
  // "Four chairs and a bureau, painted white" is no word for a bureau that has nothing white.
  const onEach =
    main !== undefined &&
    pieces.every((piece) =>
      main.places.some((place) => place.piece.id === piece.id),
    )
  if (!whole || !main || !onEach || spread(main) === 0) return { others: looks }
  return {
    main: main.layers,
    others: looks.filter((look) => look !== main),
  }
}

/**
 * The colours that meet the eye, the most spread first.
 *
 * @returns at most two, as the owner wrote them; none where only what nobody looks at first has a colour
 */
export function mainColours(works: readonly SurfaceWork[]): readonly string[] {
  const counted = new Map<string, number>()
  for (const { layers } of works.filter(({ surface }) => isOuter(surface))) {
    const colour = colourSeen(layers)
    if (colour !== undefined) {
      counted.set(colour, (counted.get(colour) ?? 0) + 1)
    }
  }
  return [...counted]
    .toSorted(([, a], [, b]) => b - a)
    .slice(0, 2)
    .map(([colour]) => plainText(colour))
}

/** The colour at the bottom of what is to be seen: a glaze over paint only shades it. */
function colourSeen(layers: readonly Layer[]): string | undefined {
  return layers.find((layer) => layer.colour !== undefined)?.colour
}

function looksOf(works: readonly SurfaceWork[]): readonly LookOf[] {
  const groups = new Map<string, SurfaceWork[]>()
  for (const work of works) {
    const key = JSON.stringify(work.layers)
    groups.set(key, [...(groups.get(key) ?? []), work])
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    return first ? [{ layers: first.layers, places: placesOf(group) }] : []
  })
}
