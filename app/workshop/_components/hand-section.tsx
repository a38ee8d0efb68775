import { cookies } from 'next/headers'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import { handCookie, handOf } from '../../snap/hand'
import { chooseHandAction } from '../actions'

/** In which hand this phone is held, and so on which side the snap button stands. */
export async function HandSection() {
  const hand = handOf((await cookies()).get(handCookie)?.value)
  return (
    <section id="hand" aria-labelledby="hand-title">
      <h2 id="hand-title" className="text-lead mb-1 font-bold">
        This phone
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        The snap button stands on the side of the thumb that holds the phone.
        Each phone remembers its own side.
      </p>
      <ActionForm action={chooseHandAction} label="This phone">
        <fieldset className="flex flex-wrap items-end gap-3">
          <legend className="mb-1.5 font-semibold">Snap button</legend>
          {(['left', 'right'] as const).map((side) => (
            <label key={side} className="choice">
              <input
                type="radio"
                name="hand"
                value={side}
                defaultChecked={hand === side}
              />
              {side === 'left' ? 'Left hand' : 'Right hand'}
            </label>
          ))}
          <SubmitButton quiet>Put it there</SubmitButton>
        </fieldset>
      </ActionForm>
    </section>
  )
}
