const irregular: Readonly<Record<string, string>> = {
  laid: 'lay',
  stuck: 'stick',
  ground: 'grind',
  swept: 'sweep',
  bled: 'bleed',
  broke: 'break',
  broken: 'break',
  lining: 'line',
  lined: 'line',
  dyed: 'dye',
  dyeing: 'dye',
  hung: 'hang',
  knives: 'knife',
  feet: 'foot',
  got: 'get',
  gotten: 'get',
  took: 'take',
  taken: 'take',
  gave: 'give',
  given: 'give',
  went: 'go',
  gone: 'go',
  came: 'come',
  made: 'make',
  did: 'do',
  done: 'do',
  built: 'build',
  dug: 'dig',
  shot: 'shoot',
  threw: 'throw',
  thrown: 'throw',
  brought: 'bring',
  kept: 'keep',
  held: 'hold',
  stood: 'stand',
  slid: 'slide',
  drew: 'draw',
  wore: 'wear',
  worn: 'wear',
  tore: 'tear',
  torn: 'tear',
  sewn: 'sew',
  swung: 'swing',
  wrung: 'wring',
  ran: 'run',
}

/**
 * A word without the endings of number and tense, so that `priming`, `primed` and `prime` are one. Not for reading: what is
 * left need not be a word. `primer` and other names for things and people keep their -er.
 *
 * Own and small because it must keep `primer` from `prime` and `coating` with `coat`, which the usual stemmers do not.
 */
export function stem(word: string): string {
  const known = irregular[word]
  if (known !== undefined) return stem(known)
  const bare = word.replace(/'s$/, '')
  for (const [ending, replacement] of [
    ['ies', 'y'],
    ['ied', 'y'],
    ['ying', 'y'],
  ] as const) {
    if (bare.endsWith(ending) && bare.length > ending.length + 1) {
      return bare.slice(0, -ending.length) + replacement
    }
  }
  for (const ending of ['ing', 'ed']) {
    const root = bare.slice(0, -ending.length)
    // Not king, thing or red: what is left must be able to be a word.
    const isWord = root.length > 2 || /^[aeiou][^aeiou]/.test(root)
    if (bare.endsWith(ending) && isWord && /[aeiouy]/.test(root)) {
      return withoutDouble(root)
    }
  }
  const single = /(?:s|x|z|ch|sh)es$/.test(bare)
    ? bare.slice(0, -2)
    : /[^s]s$/.test(bare) && bare.length > 3
      ? bare.slice(0, -1)
      : bare
  return single.length > 3 ? withoutDouble(single.replace(/e$/, '')) : single
}

/** stripp as in stripped is strip, while fill and buff are what they are: then both lose the letter, here and there. */
function withoutDouble(root: string): string {
  return root.replace(/([b-df-hj-np-tv-z])\1$/, '$1').replace(/e$/, '')
}
