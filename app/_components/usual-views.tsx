import { views } from '#core/journal/vocabulary'

/** For a field in which a view is named: the usual ones are offered by {@link UsualViews}, once on the page. */
export const viewField = {
  name: 'view',
  list: 'usual-views',
  autoComplete: 'off',
  maxLength: 60,
} as const

export function UsualViews() {
  return (
    <datalist id={viewField.list}>
      {views.map((view) => (
        <option key={view} value={view} />
      ))}
    </datalist>
  )
}
