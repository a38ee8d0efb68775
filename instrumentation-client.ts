// The framework runs this before it starts: what draws is made ready here, and all else in a task of its own, since a finger
// would have to wait for both together.
import 'react-dom/client'

/** What is to be run before the framework starts, as next/script hands it over; it starts in a later task, then. */
const before = globalThis as { __next_s?: (readonly [0, { children: '' }])[] }
before.__next_s = [...(before.__next_s ?? []), [0, { children: '' }]]
