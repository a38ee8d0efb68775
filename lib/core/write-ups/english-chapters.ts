import { fewestChapters, longestChapterTitle } from '#core/captions/chapter'
import { shortestChapter } from '#core/captions/chapter-length'
import { clockText } from '#core/captions/timestamp'
import {
  areParts,
  capitalised,
  countOf,
  listOf,
  ordinalOf,
} from '#core/write-ups/english-words'
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
        ? `${capitalised(ordinalOf(coat))} coat of ${name}${on}`
        : `${capitalised(name)}${on}`
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
          : `${capitalised(ordinalOf(coat))} coat${on}`
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
        if (areParts(places)) return `Refitting${the}`
        return the === '' ? 'Putting it together' : `Putting${the} together`
    }
  },
  problem: (problem) => {
    const time = clockText('seconds' in problem ? problem.seconds : 0)
    const name =
      'title' in problem && problem.title !== ''
        ? `“${problem.title}”`
        : `at ${time}`
    switch (problem.kind) {
      case 'too-few':
        return `There must be at least ${countOf(fewestChapters)} chapters; there ${problem.count === 0 ? 'is none' : problem.count === 1 ? 'is one' : `are ${countOf(problem.count)}`}.`
      case 'late-first':
        return `The first chapter must begin at 0:00, not at ${time}.`
      case 'no-title':
        return `The chapter at ${time} needs a title.`
      case 'long-title':
        return `The title at ${time} is longer than ${longestChapterTitle} characters.`
      case 'not-after':
        return `The chapter after ${name} must begin later than ${time}.`
      case 'too-short':
        return `The chapter ${name} lasts ${problem.lasts} s; each must last at least ${shortestChapter} s.`
      case 'at-the-end':
        return `The chapter ${name} begins less than ${shortestChapter} s before the video ends.`
    }
  },
  noTime: (line) =>
    `“${line}” does not begin with a time. Write each chapter on a line of its own, such as: 2:45 First coat`,
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
