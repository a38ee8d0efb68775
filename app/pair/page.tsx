import type { Metadata } from 'next'
import { ActionForm, SubmitButton } from '../_components/action-form.client'
import { TextField } from '../_components/field.client'
import { PageHeading } from '../_components/page-heading'
import { WaitingNote } from '../_components/waiting-note.client'
import { isLocalRequest, requireOwnSite } from '../_session'
import { CodeField } from './_components/code-field.client'
import { pairAction } from './actions'

export const metadata: Metadata = { title: 'Pair this phone' }

export default async function PairPage() {
  await requireOwnSite()
  return (
    <>
      <PageHeading
        title="Pair this phone"
        lead="The desk computer shows a code under Workshop. It is good for one phone and five minutes."
      />
      <ActionForm
        action={pairAction}
        className="flex max-w-md flex-col gap-4"
        label="Pair this phone"
      >
        <CodeField />
        <TextField
          name="name"
          label="What you call this phone"
          hint="By this name you find it in Workshop."
          optional
          maxLength={80}
          autoComplete="off"
        />
        <div>
          <SubmitButton pendingText="Pairing …">Pair this phone</SubmitButton>
        </div>
      </ActionForm>
      {!(await isLocalRequest()) && <WaitingNote once="paired" />}
    </>
  )
}
