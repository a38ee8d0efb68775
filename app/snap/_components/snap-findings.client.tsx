'use client'

import { useEffect, useEffectEvent } from 'react'
import { DraftFindings } from '../../_components/draft-findings'
import { useDraftFindings } from '../../_components/use-draft-findings.client'
import { judgeDraftAction } from '../../jobs/[job]/steps/actions'
import type { SnapChoice, SnapDoing } from '../snap-choice'
import { warnSnap } from '../snap-memory'

/**
 * What there is to say to the step that the next photo begins, before the brush is wet: surfaces that are not dry, and the
 * rules of a sound finish. What the workshop offers as ready is not asked about; without a line nothing is said.
 */
export function SnapFindings({
  choice,
  doing,
  isOffered,
}: {
  readonly choice: SnapChoice
  readonly doing: SnapDoing
  readonly isOffered: boolean
}) {
  const [findings, ask] = useDraftFindings()
  const { id, job, newStep } = choice
  const isAsked = newStep !== undefined && !isOffered
  const said = JSON.stringify([newStep, doing.thinningPercent, doing.grit])
  const judge = useEffectEvent(() => {
    if (newStep !== undefined)
      ask(() => judgeDraftAction(job, null, draftForm(newStep, doing)))
  })
  useEffect(() => {
    if (isAsked) judge()
  }, [isAsked, said])
  const must = isAsked
    ? findings.find(({ strength }) => strength === 'must')?.sentence
    : undefined
  useEffect(() => {
    warnSnap(must === undefined ? undefined : { of: id, words: must })
  }, [id, must])
  return (
    <div aria-live="polite" className="empty:hidden">
      <DraftFindings findings={isAsked ? findings : []} />
    </div>
  )
}

/** The step as the form of a step would say it. */
function draftForm(
  newStep: Readonly<Record<string, unknown>>,
  { thinningPercent, grit }: SnapDoing,
): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries({
    ...newStep,
    thinningPercent,
    grit,
  })) {
    for (const one of Array.isArray(value) ? (value as unknown[]) : [value]) {
      if (typeof one === 'string' || typeof one === 'number')
        form.append(name, String(one))
    }
  }
  return form
}
