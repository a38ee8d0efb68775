import type { Metadata } from 'next'
import Link from 'next/link'
import { daysWords } from '#core/bin/bin-times'
import { temperatureWords } from '#core/measures/temperature'
import { momentWords } from '#core/time/moments'
import { readOfferedChanges } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import { readLatestAir } from '#services/air/air'
import { readBackupSettings } from '#services/backup/backup-settings'
import { readBinSettings } from '#services/bin/bin-settings'
import { readCameras } from '#services/cameras/cameras'
import { suggestClocks } from '#services/cameras/learn-clock'
import { readRates } from '#services/money/rates'
import { readPortfolioSettings } from '#services/portfolio/settings'
import { readCredit } from '#services/sheets/sheet-settings'
import { readWorkshop } from '#services/workshop/workshop'
import { readWriteUpSettings } from '#services/write-ups/settings'
import { AirForm } from '../_air/air-form'
import { ActionForm, SubmitButton } from '../_components/action-form.client'
import { SelectField, TextField } from '../_components/field.client'
import { PageHeading } from '../_components/page-heading'
import { BackupsSection } from './_components/backups-section'
import { CamerasSection } from './_components/cameras-section'
import { ContentsList } from './_components/contents-list'
import { CreditSection } from './_components/credit-section'
import { PortfolioSection } from './_components/portfolio-section'
import { WriteUpsSection } from './_components/write-ups-section'
import { DevicesSection } from './_components/devices-section'
import { HandSection } from './_components/hand-section'
import { RatesSection } from './_components/rates-section'
import { changeWorkshopAction } from './actions'
import { requireLocalRequest } from '../_session'

export const metadata: Metadata = { title: 'Workshop' }

export default async function WorkshopPage() {
  await requireLocalRequest()
  const present = now()
  const [
    workshop,
    changes,
    writeUps,
    cameras,
    suggestions,
    air,
    rates,
    backups,
    bin,
  ] = await Promise.all([
    readWorkshop(),
    readOfferedChanges(['clock-set'], present),
    readWriteUpSettings(),
    readCameras(),
    suggestClocks(),
    readLatestAir(6),
    readRates(),
    readBackupSettings(),
    readBinSettings(),
  ])
  return (
    <>
      <PageHeading title="Workshop" />
      <ContentsList />
      <div className="grid items-start gap-10 lg:grid-cols-2">
        {/* Half of the list above beside the other half: what opens in one moves nothing in the other. */}
        <div className="grid min-w-0 grid-cols-[minmax(0,1fr)] gap-10">
          <section id="air" aria-labelledby="air-title" className="min-w-0">
            <h2 id="air-title" className="text-lead mb-1 font-bold">
              Air
            </h2>
            <p className="text-ink-soft mb-4 max-w-prose">
              Two numbers off the gauge. Cold or damp air makes every wait
              longer than the label says.
            </p>
            <AirForm units={workshop.units} last={air[0]} />
            {air.length > 0 && (
              <table className="mt-2 w-full max-w-md text-left wrap-anywhere">
                <caption className="sr-only">The latest readings</caption>
                <thead>
                  <tr className="text-ink-soft text-small">
                    <th className="py-1 pr-3 font-semibold">When</th>
                    <th className="py-1 pr-3 text-right font-semibold">
                      Temperature
                    </th>
                    <th className="py-1 text-right font-semibold">Humidity</th>
                  </tr>
                </thead>
                <tbody>
                  {air.map((reading) => (
                    <tr key={reading.at} className="border-line border-t">
                      <td className="py-2 pr-3">
                        {momentWords(reading.at, present, workshop)}
                      </td>
                      <td className="py-2 pr-3 text-right">
                        {temperatureWords(
                          reading.celsius,
                          workshop.units,
                          workshop.units === 'us' ? 0 : 1,
                        )}
                      </td>
                      <td className="py-2 text-right">
                        {reading.humidity.toFixed(0)} %
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            )}
          </section>
          <CamerasSection
            cameras={cameras}
            suggestions={suggestions}
            changes={changes}
            present={present}
            style={workshop}
          />
          <section id="bin" aria-labelledby="bin-title">
            <h2 id="bin-title" className="text-lead mb-1 font-bold">
              Bin
            </h2>
            <p className="text-ink-soft mb-3 max-w-prose">
              Jobs, pieces, surfaces and photos that were removed.{' '}
              {bin.rules.keepDays === undefined
                ? 'They stay until you bring them back.'
                : `They can be brought back for ${daysWords(bin.rules.keepDays)}.`}
            </p>
            <Link prefetch={false} href="/workshop/bin" className="button">
              Open the bin
            </Link>
          </section>
          <section
            id="settings"
            aria-labelledby="settings-title"
            className="min-w-0"
          >
            <h2 id="settings-title" className="text-lead mb-4 font-bold">
              Name, time and units
            </h2>
            <ActionForm
              action={changeWorkshopAction}
              className="flex flex-col gap-4"
              label="Settings"
            >
              <TextField
                name="name"
                label="Name of the workshop"
                defaultValue={workshop.name}
                maxLength={80}
              />
              <TextField
                name="zone"
                label="Time zone"
                hint="Photos without an offset of their own are read in it."
                defaultValue={workshop.zone}
                list="zones"
                autoComplete="off"
              />
              <datalist id="zones">
                {Intl.supportedValuesOf('timeZone').map((zone) => (
                  <option key={zone} value={zone} />
                ))}
              </datalist>
              <div className="field-row">
                <TextField
                  name="currency"
                  label="Currency"
                  defaultValue={workshop.currency}
                  maxLength={3}
                  autoComplete="off"
                />
                <SelectField
                  name="units"
                  label="Units"
                  options={[
                    { value: 'metric', text: 'Metric' },
                    { value: 'us', text: 'US' },
                  ]}
                  defaultValue={workshop.units}
                />
              </div>
              <div>
                <SubmitButton>Save the settings</SubmitButton>
              </div>
            </ActionForm>
          </section>
          <HandSection />
          <DevicesSection />
        </div>
        <div className="grid min-w-0 grid-cols-[minmax(0,1fr)] gap-10">
          <RatesSection rates={rates} currency={workshop.currency} />
          <WriteUpsSection settings={writeUps} />
          <CreditSection credit={await readCredit()} />
          <PortfolioSection settings={await readPortfolioSettings()} />
          <BackupsSection
            settings={backups}
            present={present}
            workshop={workshop}
          />
        </div>
      </div>
    </>
  )
}
