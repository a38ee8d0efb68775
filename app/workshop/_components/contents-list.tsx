/** The parts of the workshop by what they are for, in the order in which they stand on the page. */
const groups = [
  {
    name: 'While you work',
    parts: [
      { id: 'air', name: 'Air' },
      { id: 'cameras', name: 'Cameras' },
      { id: 'bin', name: 'Bin' },
    ],
  },
  {
    name: 'The house',
    parts: [
      { id: 'settings', name: 'Name, time, units' },
      { id: 'hand', name: 'Left or right hand' },
      { id: 'devices', name: 'Who is let in' },
    ],
  },
  {
    name: 'What goes out',
    parts: [
      { id: 'rates', name: 'Rates' },
      { id: 'write-ups', name: 'Write-ups' },
      { id: 'credit', name: 'Credit in files' },
      { id: 'portfolio', name: 'Portfolio' },
    ],
  },
  {
    name: 'Keeping it safe',
    parts: [{ id: 'backups', name: 'Backups' }],
  },
] as const

/** The way to each part of the workshop, at the top of its page. */
export function ContentsList() {
  return (
    <nav
      aria-label="In the workshop"
      className="card mb-8 grid gap-x-6 gap-y-3 p-4 sm:grid-cols-2 lg:grid-cols-4"
    >
      {groups.map((group) => (
        <div key={group.name}>
          <p className="text-ink-soft text-small">{group.name}</p>
          <ul className="flex flex-wrap gap-x-4 lg:flex-col">
            {group.parts.map((part) => (
              <li key={part.id}>
                <a
                  href={`#${part.id}`}
                  className="link inline-flex min-h-11 min-w-11 items-center"
                >
                  {part.name}
                </a>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </nav>
  )
}
