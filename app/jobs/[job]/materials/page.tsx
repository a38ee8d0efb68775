import Link from 'next/link'
import { notFound } from 'next/navigation'
import { readMaterials } from '#services/materials/materials'
import { materialsReaders } from '#services/materials/schema'
import { textFor } from '#services/materials/text-for'
import { CopyButton } from '../../../_components/copy-button.client'
import { EmptyState } from '../../../_components/empty-state'
import { PlainText } from '../../../_components/plain-text'
import { PrintButton } from '../../../_components/print-button.client'
import { requireLocalRequest } from '../../../_session'
import { AreasForm } from './_components/areas-form'

type Reader = (typeof materialsReaders)[number]

const readerNames: Readonly<Record<Reader, string>> = {
  owner: 'For you',
  viewer: 'For viewers',
  buyer: 'For the buyer',
}
const leads: Readonly<Record<Reader, string>> = {
  owner: 'What was used, what it cost, and what is left. For your eyes.',
  viewer: 'In order of use, with amounts and links, and no costs.',
  buyer: 'What is on the furniture and how to touch it up, and no costs.',
}

export default async function MaterialsPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/materials'>) {
  await requireLocalRequest()
  const { job } = await params
  const { reader: asked } = await searchParams
  const reader = materialsReaders.find((one) => one === asked) ?? 'owner'
  const found = await readMaterials(job)
  if (found === undefined) notFound()
  const { list, pieces } = found
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
  const text = textFor(reader, found)
  return (
    <div className="flex max-w-3xl flex-col gap-8">
      <section aria-labelledby="materials" className="flex flex-col gap-4">
        <h2 id="materials" className="text-lead font-bold">
          Materials list
        </h2>
        <nav aria-label="Whom the list is for" className="print:hidden">
          <ul className="flex flex-wrap gap-2">
            {materialsReaders.map((one) => (
              <li key={one}>
                <Link
                  prefetch={false}
                  href={`/jobs/${job}/materials?reader=${one}`}
                  aria-current={one === reader ? 'page' : undefined}
                  className={`button ${one === reader ? 'border-press bg-press-soft text-press' : ''}`}
                >
                  {readerNames[one]}
                </Link>
              </li>
            ))}
          </ul>
        </nav>
        <p className="text-ink-soft print:hidden">{leads[reader]}</p>
        <PlainText text={text} label="Materials list" />
        <div className="flex flex-wrap gap-3 print:hidden">
          <CopyButton text={text}>Copy the list</CopyButton>
          <a
            href={`/api/jobs/${job}/materials.txt?reader=${reader}`}
            download
            className="button"
          >
            Download as text
          </a>
          {reader !== 'buyer' && (
            <a
              href={`/api/jobs/${job}/materials.csv?reader=${reader}`}
              download
              className="button"
            >
              Download as CSV
            </a>
          )}
          {reader === 'owner' && (
            <a
              href={`/api/jobs/${job}/materials.json`}
              download
              className="button"
            >
              Download as JSON
            </a>
          )}
          <PrintButton>Print the list</PrintButton>
        </div>
      </section>
      {reader === 'owner' && (
        <section aria-labelledby="areas" className="print:hidden">
          <h2 id="areas" className="text-lead mb-1 font-bold">
            Sizes of the surfaces
          </h2>
          <p className="text-ink-soft mb-4 max-w-prose">
            An amount that nobody wrote down is reckoned from them. Boxes are
            worked out from the size of the piece; type what you measured where
            that is wrong or missing.
          </p>
          <AreasForm job={job} pieces={pieces} units={found.settings.units} />
        </section>
      )}
    </div>
  )
}
