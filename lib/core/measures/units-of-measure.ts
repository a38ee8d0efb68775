/** What the owner reads and types in: °C, m² and ml, or °F, square feet and fluid ounces. Kept values are always metric. */
export type Units = 'metric' | 'us'
