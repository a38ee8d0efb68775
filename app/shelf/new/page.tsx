import type { Metadata } from 'next'
import { readWorkshop } from '#services/workshop/workshop'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { PageHeading } from '../../_components/page-heading'
import { ProductFields } from '../_components/product-fields'
import { addProductAction } from '../actions'
import { requireLocalRequest } from '../../_session'

export const metadata: Metadata = { title: 'New product' }

export default async function NewProductPage() {
  await requireLocalRequest()
  const { currency, units } = await readWorkshop()
  return (
    <>
      <PageHeading title="New product" />
      <ActionForm action={addProductAction} className="max-w-2xl">
        <ProductFields currency={currency} units={units} />
        <div className="mt-6">
          <SubmitButton>Put it on the shelf</SubmitButton>
        </div>
      </ActionForm>
    </>
  )
}
