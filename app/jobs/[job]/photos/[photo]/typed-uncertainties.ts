/** How far a typed time may be off either way, as the owner is asked. */
export const typedUncertainties: readonly {
  readonly seconds: number
  readonly text: string
}[] = [
  { seconds: 0, text: 'nothing: it is exact' },
  { seconds: 300, text: '5 minutes' },
  { seconds: 1800, text: 'half an hour' },
  { seconds: 7200, text: '2 hours' },
  { seconds: 43_200, text: 'half a day' },
]
