import Link from 'next/link'
import { notFound } from 'next/navigation'
import { listMaterials } from '#core/materials/list-materials'
import { materialsText } from '#core/materials/materials-text'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'
import { CopyButton } from '../../../_components/copy-button.client'
import { EmptyState } from '../../../_components/empty-state'
import { PlainText } from '../../../_components/plain-text'
import { requireLocalRequest } from '../../../_session'

export default async function MaterialsPage({
  params,
}: PageProps<'/jobs/[job]/materials'>) {
  await requireLocalRequest()
  const { job } = await params
  const [journal, settings] = await Promise.all([
    readJournal(job),
    readWorkshop(),
  ])
  if (journal === undefined) notFound()
  const list = listMaterials(journal)
  if (list.materials.length === 0 && list.sanded.length === 0) {
    return (
      <EmptyState title="No materials yet">
        <p>
          The list is made from the steps: give them a product, a grit or an
          amount, and it appears here in order of use.
        </p>
        <Link
          prefetch={false}
          href={`/jobs/${job}/timeline`}
          className="button"
        >
          Go to the timeline
        </Link>
      </EmptyState>
    )
  }
  const text = materialsText(list, settings)
  return (
    <section
      aria-labelledby="materials"
      className="flex max-w-3xl flex-col gap-4"
    >
      <h2 id="materials" className="text-lead font-bold">
        Materials list
      </h2>
      <div className="flex flex-wrap gap-3 print:hidden">
        <CopyButton text={text}>Copy the list</CopyButton>
        <a href={`/api/jobs/${job}/materials.csv`} download className="button">
          Download as CSV
        </a>
        <a href={`/api/jobs/${job}/materials.txt`} download className="button">
          Download as text
        </a>
      </div>
      <PlainText text={text} label="Materials list" />
    </section>
  )
}
