import type { NewPortfolioSettings } from '#services/portfolio/schema'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextArea, TextField } from '../../_components/field.client'
import { changePortfolioAction } from '../portfolio-actions'

/** What stands on every page of the portfolio, and the way to take it elsewhere. */
export function PortfolioSection({
  settings,
}: {
  readonly settings: NewPortfolioSettings
}) {
  return (
    <section id="portfolio" aria-labelledby="portfolio-title">
      <h2 id="portfolio-title" className="text-lead mb-1 font-bold">
        Portfolio
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        What stands on every page of it. Pieces are published from their job,
        under Portfolio.
      </p>
      <ActionForm
        action={changePortfolioAction}
        className="flex flex-col gap-4"
        label="Portfolio"
      >
        <TextArea
          name="introduction"
          label="A few words about you"
          defaultValue={settings.introduction}
          optional
        />
        <TextArea
          name="contact"
          label="How to reach you"
          hint="Anyone can read it. One to a line: an address of mail, a number, a street."
          defaultValue={settings.contact}
          optional
        />
        <TextField
          name="publicAddress"
          label="Public address"
          hint="Where you put the copy for anyone to see. Feed, shared pictures and the code on the care card need it."
          inputMode="url"
          autoComplete="off"
          defaultValue={settings.publicAddress}
          optional
        />
        <div>
          <SubmitButton>Save for the portfolio</SubmitButton>
        </div>
      </ActionForm>
      <p className="mt-3 flex flex-wrap gap-3">
        <a href="/portfolio" target="_blank" className="button">
          See the portfolio
        </a>
        <a href="/api/portfolio.zip" download className="button">
          Download a copy to put anywhere
        </a>
      </p>
    </section>
  )
}
