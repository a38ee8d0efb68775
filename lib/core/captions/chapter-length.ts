/** The shortest chapter, in seconds. Common practice, no source. */
export const shortestChapter = 10
