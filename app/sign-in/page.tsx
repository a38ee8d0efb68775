import type { Metadata } from 'next'
import Link from 'next/link'
import { hasPassphrase } from '#services/devices/passphrase'
import { ActionForm, SubmitButton } from '../_components/action-form.client'
import { TextField } from '../_components/field.client'
import { PageHeading } from '../_components/page-heading'
import { WaitingNote } from '../_components/waiting-note.client'
import { isLocalRequest, requireOwnSite } from '../_session'
import { signInAction } from './actions'

export const metadata: Metadata = { title: 'Sign in' }

export default async function SignInPage() {
  await requireOwnSite()
  return (
    <>
      <PageHeading
        title="Sign in"
        lead="This workshop lets in paired phones, and whoever knows its passphrase."
      />
      <div className="grid items-start gap-10 lg:grid-cols-2">
        <section aria-labelledby="pair-title">
          <h2 id="pair-title" className="text-lead mb-1 font-bold">
            A phone
          </h2>
          <p className="text-ink-soft mb-4 max-w-prose">
            On the desk computer, open Workshop and choose “Pair a phone”. Point
            the camera of this phone at the code that it shows, or type it.
          </p>
          <Link prefetch={false} href="/pair" className="button button-main">
            Type a code
          </Link>
        </section>
        {(await hasPassphrase()) && (
          <section aria-labelledby="passphrase-title">
            <h2 id="passphrase-title" className="text-lead mb-4 font-bold">
              By passphrase
            </h2>
            <ActionForm
              action={signInAction}
              className="flex flex-col gap-4"
              label="Sign in"
            >
              <TextField
                name="passphrase"
                label="Passphrase"
                type="password"
                autoComplete="current-password"
                maxLength={400}
              />
              <div>
                <SubmitButton pendingText="Looking …">Sign in</SubmitButton>
              </div>
            </ActionForm>
          </section>
        )}
      </div>
      {!(await isLocalRequest()) && <WaitingNote once="let in" />}
    </>
  )
}
