/** What is kept of a product: `toProduct` makes one of these columns. */
export const productColumns = {
  id: true,
  name: true,
  category: true,
  chemistry: true,
  label: true,
  packAmount: true,
  packUnit: true,
  packPriceMinor: true,
  packsBought: true,
  link: true,
  paidLink: true,
} as const
