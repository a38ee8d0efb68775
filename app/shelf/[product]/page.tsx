import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readOfferedChanges } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import { readProduct } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { OfferedChange } from '../../_components/offered-change'
import { PageHeading } from '../../_components/page-heading'
import { ProductFields } from '../_components/product-fields'
import { changeProductAction, undoProductChangeAction } from '../actions'
import { requireLocalRequest } from '../../_session'

export async function generateMetadata({
  params,
}: PageProps<'/shelf/[product]'>): Promise<Metadata> {
  await requireLocalRequest()
  const product = await readProduct((await params).product)
  return { title: product?.name ?? 'Product' }
}

export default async function ProductPage({
  params,
}: PageProps<'/shelf/[product]'>) {
  await requireLocalRequest()
  const present = now()
  const { product: id } = await params
  const [product, workshop, [change]] = await Promise.all([
    readProduct(id),
    readWorkshop(),
    readOfferedChanges(['product-changed'], present, id),
  ])
  if (product === undefined) notFound()
  const { currency, units } = workshop
  return (
    <>
      <PageHeading
        title={product.name}
        lead="A change counts for every job that used it, also for what was done before."
      />
      <ActionForm
        action={changeProductAction.bind(null, product.id)}
        className="max-w-2xl"
      >
        <ProductFields product={product} currency={currency} units={units} />
        <div className="mt-6">
          <SubmitButton>Save the product</SubmitButton>
        </div>
      </ActionForm>
      {change !== undefined && (
        <div className="card mt-8 max-w-2xl p-4">
          <OfferedChange
            change={change}
            words="the product was changed"
            present={present}
            style={workshop}
            action={undoProductChangeAction}
          />
        </div>
      )}
    </>
  )
}
