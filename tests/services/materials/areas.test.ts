import { expect, test } from 'vitest'
import { changeAreas } from '#services/materials/areas'
import { readMaterials } from '#services/materials/materials'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function areasOf(jobId: string) {
  const found = await readMaterials(jobId)
  return found?.pieces.flatMap(({ surfaces }) =>
    surfaces.map((surface) => surface.areaSquareMetres),
  )
}

test('a measured area is kept until it is taken back', async () => {
  const job = await makeJob()
  const [surface = ''] = job.surfaceIds
  await changeAreas(job.id, [{ surface, squareMetres: 1.25 }])
  expect(await areasOf(job.id)).toEqual([1.25, undefined])
  await changeAreas(job.id, [{ surface, squareMetres: null }])
  expect(await areasOf(job.id)).toEqual([undefined, undefined])
})

test('a surface of another job is refused, and nothing is kept', async () => {
  const job = await makeJob()
  const other = await makeJob()
  const changed = await changeAreas(job.id, [
    { surface: job.surfaceIds[0] ?? '', squareMetres: 1 },
    { surface: other.surfaceIds[0] ?? '', squareMetres: 1 },
  ])
  expect(changed.ok).toBe(false)
  expect(await areasOf(job.id)).toEqual([undefined, undefined])
})
