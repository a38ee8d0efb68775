import type { Metadata } from 'next'
import Link from 'next/link'
import { askedOfLabel } from '#core/shelf/asked-of-label'
import { driesOn } from '#core/shelf/suits-step'
import type { Product } from '#core/shelf/product'
import { lengthOfTime } from '#core/time/length-of-time'
import { readOfferedChanges } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import { readProducts } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../_components/empty-state'
import { OfferedChange } from '../_components/offered-change'
import { PageHeading } from '../_components/page-heading'
import { requireLocalRequest } from '../_session'

export const metadata: Metadata = { title: 'Shelf' }

export default async function ShelfPage() {
  await requireLocalRequest()
  const present = now()
  const [products, workshop, [change]] = await Promise.all([
    readProducts(),
    readWorkshop(),
    readOfferedChanges(['product-added', 'product-changed'], present, 'last'),
  ])
  const changed = products.find(({ id }) => id === change?.productIds[0])
  return (
    <>
      <PageHeading
        title="Shelf"
        lead="What you use, with what the label says. Dry checks go by it."
        actions={
          products.length === 0 ? undefined : (
            <Link
              prefetch={false}
              href="/shelf/new"
              className="button button-main"
            >
              New product
            </Link>
          )
        }
      />
      {change !== undefined && changed !== undefined && (
        <div className="card mb-6 p-4">
          <OfferedChange
            change={change}
            words={`“${changed.name}” was ${change.kind === 'product-added' ? 'added' : 'changed'}`}
            present={present}
            style={workshop}
          />
        </div>
      )}
      {products.length === 0 ? (
        <EmptyState title="An empty shelf">
          <p>
            Add a product and copy the times from its label: when it may be
            recoated, sanded, handled, and when it has cured.
          </p>
          <Link
            prefetch={false}
            href="/shelf/new"
            className="button button-main"
          >
            Add the first product
          </Link>
        </EmptyState>
      ) : (
        <ul className="grid gap-3 sm:grid-cols-2 lg:grid-cols-3">
          {products.map((product) => (
            <li key={product.id}>
              <Link
                prefetch={false}
                href={`/shelf/${product.id}`}
                className="card hover:border-line-strong flex h-full flex-col p-4"
              >
                <span className="text-[1.125rem] font-bold break-words">
                  {product.name}
                </span>
                <span className="text-ink-soft">{product.category}</span>
                <span className="mt-2 empty:hidden">{labelWords(product)}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

function labelWords({ label, category }: Product): string {
  const said = [
    label.recoatMinutes === undefined
      ? ''
      : `${driesOn(category) ? 'recoat' : 'coat'} after ${lengthOfTime(label.recoatMinutes)}`,
    label.recoatByMinutes === undefined
      ? ''
      : `and within ${lengthOfTime(label.recoatByMinutes)}`,
    label.recoatWindows === undefined ? '' : 'recoat in its windows',
    label.cureDays === undefined
      ? ''
      : `cured in ${label.cureDays} ${label.cureDays === 1 ? 'day' : 'days'}`,
  ].filter((one) => one !== '')
  if (said.length > 0) return sentenceOf(said)
  return askedOfLabel(category) === 'everything' ? 'No label times yet' : ''
}

function sentenceOf(said: readonly string[]): string {
  return said.join(', ').replace(', and', ' and')
}
