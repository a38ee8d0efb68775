/** Runs once before all tests; the migrated template database is made here. */
export function setup(): void {
  // Nothing to make yet.
}
