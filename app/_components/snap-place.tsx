import { cookies } from 'next/headers'
import { now } from '#services/clock'
import { isLocalRequest } from '../_session'
import { snapChoices } from '../snap/_snap-choices'
import { refreshAction } from '../snap/actions'
import { handCookie, handOf } from '../snap/hand'
import { SnapBar } from './snap-bar.client'

/** The snap bar with what the next photo may be of. Nobody but this machine is told what that is. */
export async function SnapPlace() {
  if (!(await isLocalRequest())) return null
  const hand = handOf((await cookies()).get(handCookie)?.value)
  return (
    <SnapBar
      choices={await snapChoices(now())}
      hand={hand}
      refresh={refreshAction}
    />
  )
}
