import { momentWords } from '#core/time/moments'
import { now } from '#services/clock'
import { type Way, readDevices } from '#services/devices/devices'
import { readLan } from '#services/devices/lan'
import { hasPassphrase } from '#services/devices/passphrase'
import { readWorkshop } from '#services/workshop/workshop'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { TextField } from '../../_components/field.client'
import { Fold } from '../../_components/fold'
import { isAtDesk, thisDevice } from '../../_session'
import {
  addCalendarAction,
  addProgramAction,
  changePassphraseAction,
  pairPhoneAction,
  revokeDeviceAction,
  signOutAction,
} from '../devices-actions'
import { PairPhone } from './pair-phone.client'

const ways: Readonly<Record<Way, string>> = {
  paired: 'Paired by a code',
  passphrase: 'Signed in by the passphrase',
  program: 'A program with a token',
  calendar: 'A calendar with an address of its own',
}

/** Who is let in: phones and their pairing, the passphrase, and what to turn away from now on. */
export async function DevicesSection() {
  const present = now()
  const [devices, workshop, passphrase, atDesk, me] = await Promise.all([
    readDevices(present),
    readWorkshop(),
    hasPassphrase(),
    isAtDesk(),
    thisDevice(),
  ])
  const lan = readLan()
  return (
    <section id="devices" aria-labelledby="devices-title">
      <h2 id="devices-title" className="text-lead mb-1 font-bold">
        Phones and who is let in
      </h2>
      {lan === undefined ? (
        <>
          <p className="text-ink-soft mb-3 max-w-prose">
            Only this computer reaches the workshop now.
          </p>
          <div className="mb-4">
            <Fold title="How to let a phone in">
              <p className="max-w-prose">
                Stop Coatbook on the desk computer and start it for the local
                network, with{' '}
                <code className="break-words">npm run start:lan</code>. Then
                this page offers to pair the phone.
              </p>
            </Fold>
          </div>
        </>
      ) : (
        <>
          <p className="text-ink-soft mb-4 max-w-prose">
            On the local network this workshop is at{' '}
            <strong className="text-ink break-all">
              https://{lan.hosts[0]}
            </strong>
            .
          </p>
          {atDesk && (
            <PairPhone action={pairPhoneAction} fingerprint={lan.fingerprint} />
          )}
        </>
      )}
      {devices.length > 0 && (
        <ul className="mt-4 flex flex-col gap-3">
          {devices.map((device) => (
            <li
              key={device.id}
              className="card flex flex-wrap items-center justify-between gap-3 p-3"
            >
              <div className="min-w-0">
                <p className="font-bold break-words">
                  {device.name}
                  {device.id === me?.id && (
                    <span className="font-normal"> (this one)</span>
                  )}
                </p>
                <p className="text-ink-soft text-small">
                  {ways[device.way]}{' '}
                  {momentWords(device.addedAt, present, workshop)}, last seen{' '}
                  {momentWords(device.seenAt, present, workshop)}
                </p>
              </div>
              <ActionForm
                action={revokeDeviceAction.bind(null, device.id)}
                label={`Let ${device.name} in no more`}
              >
                <SubmitButton quiet pendingText="Revoking …">
                  Revoke
                </SubmitButton>
              </ActionForm>
            </li>
          ))}
        </ul>
      )}
      {me !== undefined && (
        <ActionForm action={signOutAction} label="Sign out" className="mt-4">
          <SubmitButton quiet pendingText="Signing out …">
            Sign out here
          </SubmitButton>
        </ActionForm>
      )}
      {atDesk && (
        <>
          <h3 className="mt-6 font-bold">Passphrase</h3>
          <p className="text-ink-soft mb-3 max-w-prose">
            {passphrase
              ? 'It is set: this computer asks for it too. Changing it signs out all who came in by the old one; paired phones stay.'
              : 'None is set: whoever sits at this computer is let in. With one, this computer asks for it too, and another computer on the network can sign in.'}
          </p>
          <ActionForm
            action={changePassphraseAction}
            className="flex max-w-md flex-col gap-4"
            label="Passphrase"
          >
            {passphrase && (
              <TextField
                name="current"
                label="The one that is set"
                type="password"
                autoComplete="current-password"
                maxLength={400}
              />
            )}
            <TextField
              name="passphrase"
              label="New passphrase"
              hint="At least 12 characters; four words that have nothing to do with each other are easy to keep."
              type="password"
              autoComplete="new-password"
              maxLength={400}
            />
            <div>
              <SubmitButton quiet>
                {passphrase ? 'Change the passphrase' : 'Set a passphrase'}
              </SubmitButton>
            </div>
          </ActionForm>
          <div className="mt-6">
            <Fold title="See the bench in a calendar">
              <p className="text-ink-soft mb-3 max-w-prose">
                A calendar program cannot sign in. With an address of its own it
                reads when coats are ready, and nothing else; whoever has the
                address can read that too. Revoke it above.
              </p>
              <ActionForm
                action={addCalendarAction}
                className="flex max-w-md flex-col gap-4"
                label="A calendar"
              >
                <div>
                  <SubmitButton quiet pendingText="Making …">
                    Make an address
                  </SubmitButton>
                </div>
              </ActionForm>
            </Fold>
            <Fold title="For a program of your own">
              <p className="text-ink-soft mb-3 max-w-prose">
                It sends its token as <code>Authorization: Bearer</code>. The
                token is shown this once.
              </p>
              <ActionForm
                action={addProgramAction}
                className="flex max-w-md flex-col gap-4"
                label="A program"
              >
                <TextField
                  name="program"
                  label="What it is"
                  maxLength={80}
                  autoComplete="off"
                />
                <div>
                  <SubmitButton quiet>Make a token</SubmitButton>
                </div>
              </ActionForm>
            </Fold>
          </div>
        </>
      )}
    </section>
  )
}
