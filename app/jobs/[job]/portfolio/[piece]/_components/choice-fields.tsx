import type { ReactNode } from 'react'

/** Things with a picture, each of which is shown or not. */
export function PictureChoices({
  name,
  legend,
  hint,
  choices,
  chosen,
}: {
  readonly name: string
  readonly legend: string
  readonly hint?: string
  readonly choices: readonly {
    readonly id: string
    readonly words: string
    /** Photos, side by side. */
    readonly photos: readonly string[]
  }[]
  readonly chosen: readonly string[]
}) {
  if (choices.length === 0) return null
  return (
    <fieldset className="min-w-0">
      <legend className="mb-1.5 font-semibold">{legend}</legend>
      {hint !== undefined && (
        <p className="text-ink-soft text-small mb-2">{hint}</p>
      )}
      <ul className="grid grid-cols-[repeat(auto-fill,minmax(min(100%,13rem),1fr))] gap-3">
        {choices.map(({ id, words, photos }) => (
          <li key={id}>
            <label className="choice flex h-full flex-wrap content-start">
              <input
                type="checkbox"
                name={name}
                value={id}
                defaultChecked={chosen.includes(id)}
              />
              <span className="min-w-0 grow basis-32">{words}</span>
              {photos.length > 0 && (
                <span className="flex w-full gap-1">
                  {photos.map((photo) => (
                    <img
                      key={photo}
                      src={`/api/photos/${photo}/thumb`}
                      alt=""
                      width={160}
                      height={120}
                      loading="lazy"
                      className="bg-well aspect-4/3 min-w-0 flex-1 object-cover"
                    />
                  ))}
                </span>
              )}
            </label>
          </li>
        ))}
      </ul>
    </fieldset>
  )
}

/** One thing that is shown or not. */
export function Toggle({
  name,
  chosen,
  children,
}: {
  readonly name: string
  readonly chosen: boolean
  readonly children: ReactNode
}) {
  return (
    <label className="choice">
      <input type="checkbox" name={name} defaultChecked={chosen} />
      <span>{children}</span>
    </label>
  )
}
