/** The shortest chapter, in seconds. Common practice, no source. */
export const shortestChapter = 10
/**
 * Two steps may be told of so close together, in seconds; the chapter of the second then begins later than its telling.
 * Common practice, no source.
 */
export const closestTellings = 6
