import type { Metadata } from 'next'
import Link from 'next/link'
import { formatMoney } from '#core/money/format-money'
import { whatPays } from '#core/money/what-pays'
import { readRates } from '#services/money/rates'
import { readSoldJobs } from '#services/money/sold-jobs'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../../_components/empty-state'
import { PageHeading } from '../../_components/page-heading'
import { requireLocalRequest } from '../../_session'
import { PayPlot } from './_components/pay-plot'

export const metadata: Metadata = { title: 'What pays' }

export default async function WhatPaysPage() {
  await requireLocalRequest()
  const [jobs, { hourlyMinor }, { currency }] = await Promise.all([
    readSoldJobs(),
    readRates(),
    readWorkshop(),
  ])
  const timed = jobs.filter(({ minutes }) => minutes > 0)
  return (
    <>
      <PageHeading
        title="What pays"
        lead="What an hour of yours brought on jobs that are sold: what was left after everything but your own work, over all hands-on hours."
      />
      {timed.length === 0 ? (
        <EmptyState title="Nothing sold with its hours yet">
          <p>
            Write down on a job’s Money screen what it sold for; its hours come
            from the photos of its steps.
          </p>
          <Link prefetch={false} href="/jobs" className="button">
            Go to the jobs
          </Link>
        </EmptyState>
      ) : (
        <div className="flex flex-col gap-8">
          <p className="max-w-prose">
            {hourlyMinor === undefined
              ? ''
              : `The dashed line is your rate, ${formatMoney(hourlyMinor, currency)}. `}
            Each dot is a job; a bar over one dot is no rule yet. A job with two
            kinds of piece or finish counts in both.
          </p>
          <div className="grid items-start gap-10 lg:grid-cols-2">
            <PayPlot
              id="by-kind"
              title="By kind of piece"
              of="Kind"
              groups={whatPays(timed, (job) => job.kinds)}
              wantedMinor={hourlyMinor}
              currency={currency}
            />
            <PayPlot
              id="by-finish"
              title="By finish"
              of="Finish"
              groups={whatPays(timed, (job) => job.finishes)}
              wantedMinor={hourlyMinor}
              currency={currency}
            />
          </div>
        </div>
      )}
    </>
  )
}
