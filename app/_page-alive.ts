/** What a page says of itself once it is alive. */
export const pageIsAlive = 'coatbook-alive'
