import { creditAtMost } from '#services/sheets/sheet-settings'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextField } from '../../_components/field.client'
import { changeCreditAction } from '../sheets-actions'

/** Whom the files that leave name as their author. */
export function CreditSection({ credit }: { readonly credit: string }) {
  return (
    <section id="credit" aria-labelledby="credit-title">
      <h2 id="credit-title" className="text-lead mb-1 font-bold">
        Credit in files
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        Sheets, moving pictures, PDFs and the pictures of the portfolio say
        nothing in their files of where, when or with what they were made. They
        can name you as their author.
      </p>
      <ActionForm
        action={changeCreditAction}
        className="flex flex-col gap-4"
        label="Credit in files"
      >
        <TextField
          name="credit"
          label="Name in the files"
          hint="A name, such as that of the workshop. Left empty: none."
          defaultValue={credit}
          maxLength={creditAtMost}
          autoComplete="off"
          optional
        />
        <div>
          <SubmitButton>Save the credit</SubmitButton>
        </div>
      </ActionForm>
    </section>
  )
}
