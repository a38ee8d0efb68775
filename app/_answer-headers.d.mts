type AnswerHeader = { readonly key: string; readonly value: string }
export const everyAnswer: readonly AnswerHeader[]
export const ofOwnSite: readonly AnswerHeader[]
