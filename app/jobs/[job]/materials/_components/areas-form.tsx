import { surfaceAreas } from '#core/film/surface-area'
import type { Piece } from '#core/journal/journal'
import { areaSign, shownArea } from '#core/measures/area'
import type { Units } from '#core/measures/units-of-measure'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { TextField } from '../../../../_components/field.client'
import { changeAreasAction } from '../actions'

/** The area of every surface: what is worked out stands in the field until a measured one is typed. */
export function AreasForm({
  job,
  pieces,
  units,
}: {
  readonly job: string
  readonly pieces: readonly Piece[]
  readonly units: Units
}) {
  const workedOut = surfaceAreas(pieces)
  const shown = (squareMetres: number | undefined) =>
    squareMetres === undefined
      ? ''
      : String(Math.round(shownArea(squareMetres, units) * 100) / 100)
  return (
    <ActionForm
      action={changeAreasAction.bind(null, job)}
      label="Sizes of the surfaces"
      className="flex flex-col gap-4"
    >
      <input type="hidden" name="units" value={units} />
      {pieces.map((piece) => (
        <fieldset key={piece.id} className="card min-w-0 p-4">
          <legend className="float-left mb-3 w-full font-bold">
            {piece.name}
          </legend>
          <div className="field-row clear-both">
            {piece.surfaces.map((surface) => (
              <TextField
                key={surface.id}
                name={`area.${surface.id}`}
                label={surface.name}
                unit={areaSign(units)}
                inputMode="decimal"
                autoComplete="off"
                placeholder={shown(workedOut(surface.id))}
                defaultValue={shown(surface.areaSquareMetres)}
              />
            ))}
          </div>
        </fieldset>
      ))}
      <div>
        <SubmitButton>Save the sizes</SubmitButton>
      </div>
    </ActionForm>
  )
}
