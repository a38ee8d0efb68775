'use client'

import { useEffect, useEffectEvent, useState } from 'react'
import {
  type DraftFinding,
  DraftFindings,
} from '../../_components/draft-findings'
import { judgeDraftAction } from '../../jobs/[job]/steps/actions'
import type { SnapChoice, SnapDoing } from '../snap-choice'
import { warnSnap } from '../snap-memory'

/** The steppers are tapped several times in a row. */
const pauseMilliseconds = 300

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
  const [findings, setFindings] = useState<readonly DraftFinding[]>([])
  const { job, newStep } = choice
  const isAsked = newStep !== undefined && !isOffered
  const said = JSON.stringify([newStep, doing.thinningPercent, doing.grit])
  const judge = useEffectEvent(async () => {
    try {
      return await judgeDraftAction(job, null, draftForm(newStep ?? {}, doing))
    } catch {
      // A hint that could not be had is no reason to stop the work.
      return []
    }
  })
  useEffect(() => {
    if (!isAsked) return
    let isOver = false
    const asked = setTimeout(() => {
      void judge().then((found) => {
        if (isOver) return
        setFindings(found)
        const must = found.find(({ strength }) => strength === 'must')
        warnSnap(must && { of: choice.id, words: must.sentence })
      })
    }, pauseMilliseconds)
    return () => {
      isOver = true
      clearTimeout(asked)
    }
  }, [choice.id, isAsked, said])
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
