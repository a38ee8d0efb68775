import { clockText } from '#core/captions/timestamp'
import { countOf, listOf } from '#core/write-ups/english-words'
import type { Language } from '#core/write-ups/language'

/** The words of chapters, and of what is asked after captions. */
export const englishChapters: Language['chapters'] = {
  heading: 'Chapters',
  line: (seconds, title) => `${clockText(seconds)} ${title}`,
  introduction: 'Introduction',
  ending: 'The finished piece',
  step: ({ kind, coat, coats, places }) => {
    const the = places.length === 0 ? '' : ` the ${listOf(places)}`
    const on = the === '' ? '' : ` on${the}`
    const numbered = (name: string) =>
      coats > 1 && coat !== undefined
        ? `${ordinalOf(coat)} coat of ${name}${on}`
        : `${name.charAt(0).toUpperCase()}${name.slice(1)}${on}`
    switch (kind) {
      case 'clean':
        return `Cleaning${the}`
      case 'repair':
        return `Repairs${the === '' ? '' : ` to${the}`}`
      case 'strip':
        return `Stripping${the}`
      case 'sand':
        return `Sanding${the}`
      case 'scuff':
        return `Scuffing${the}`
      case 'condition':
        return numbered('conditioner')
      case 'prime':
        return numbered('primer')
      case 'coat':
        return coat === undefined
          ? `Painting${the}`
          : `${ordinalOf(coat)} coat${on}`
      case 'stain':
        return numbered('stain')
      case 'glaze':
        return numbered('glaze')
      case 'seal':
        return numbered('clear coat').replace(
          'coat of clear coat',
          'clear coat',
        )
      case 'wax':
        return numbered('wax')
      case 'hardware':
        return 'Hardware'
      case 'liner':
        return the === '' ? 'Lining' : `Lining${the}`
      case 'detail':
        return `Details${on}`
      case 'assemble':
        return the === '' ? 'Putting it together' : `Putting${the} together`
    }
  },
  ask: ({ fact, kind, values, known }) => {
    switch (fact) {
      case 'grit':
        return `Was the ${kind === 'sand' ? 'sanding' : 'scuffing'} done with ${listOf(values.map((value) => `P${value}`))}?`
      case 'dilution':
        return `Was it thinned by ${listOf(values.map((value) => `${value} %`))}?`
      case 'dwell':
        return `Was it left on for ${listOf(values.map((value) => `${value} min`))}?`
      case 'coats':
        return `Were there ${countOf(Math.max(...values))} coats? The journal has ${countOf(known)}.`
    }
  },
}

function ordinalOf(coat: number): string {
  return (
    ['First', 'Second', 'Third', 'Fourth', 'Fifth', 'Sixth'][coat - 1] ??
    `${coat}th`
  )
}
