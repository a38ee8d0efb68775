import { longestText } from '#core/backup/text-limits'
import type { Row, TableShape, Value } from '#services/backup/table-shape'

/**
 * A row as `journal.json` has it: moments as ISO 8601 in UTC with milliseconds, yes and no as booleans, bytes in base64
 * (RFC 4648, section 4), everything else as it is kept.
 */
export function rowToJson(
  shape: TableShape,
  row: Row,
): Readonly<Record<string, JsonValue>> {
  return Object.fromEntries(
    shape.columns.map(({ name, type }) => [
      name,
      valueToJson(type, row[name] ?? null),
    ]),
  )
}

type JsonValue = string | number | boolean | null

function valueToJson(type: string, value: Value): JsonValue {
  if (type === 'BLOB' && typeof value === 'string') {
    return Buffer.from(value, 'hex').toString('base64')
  }
  if (type === 'DATETIME' && value !== null) {
    return new Date(value).toISOString()
  }
  if (type === 'BOOLEAN' && value !== null) return value === 1
  return value
}

/** A record in words, by its table and by the values of its key as far as they can be read. */
export function recordName(shape: TableShape, record: unknown): string {
  const key = shape.key.map((name): unknown =>
    typeof record === 'object' && record !== null
      ? Reflect.get(record, name)
      : undefined,
  )
  const words = key
    .filter((one) => typeof one === 'string' || typeof one === 'number')
    .map((one) =>
      String(one)
        .replaceAll(/\p{Cc}/gu, ' ')
        .slice(0, 40),
    )
  return words.length === 0
    ? `A record of ${shape.name}`
    : `The record ${words.join(', ')} of ${shape.name}`
}

const isoMoment = /^(?:[+-]\d{2})?\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/
/** The last moment that a date can hold, in milliseconds before and after 1970. Source: ECMA-262, 21.4.1.1. */
const mostMilliseconds = 8.64e15

/**
 * The values of a row in the order of its table's columns, from what `journal.json` has.
 *
 * @returns why it is no row of the table, as a sentence
 */
export function rowFromJson(
  shape: TableShape,
  json: unknown,
): { readonly values: readonly Value[] } | { readonly flaw: string } {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return { flaw: `A record of ${shape.name} is none.` }
  }
  const record = recordName(shape, json)
  const known = new Set(shape.columns.map((column) => column.name))
  const strange = Object.keys(json).find((name) => !known.has(name))
  if (strange !== undefined) {
    return {
      flaw: `${record} has "${strange.slice(0, 40)}", which is not known.`,
    }
  }
  const values: Value[] = []
  for (const { name, type } of shape.columns) {
    const value: unknown = Reflect.get(json, name)
    const found = valueFromJson(type, value)
    if (found === undefined) {
      return {
        flaw: `${record} has no "${name}" that can be read.`,
      }
    }
    if (typeof found === 'string' && type === 'TEXT') {
      if (found.includes('\0')) {
        return {
          flaw: `${record} has a "${name}" with the character U+0000, behind which nothing would be kept.`,
        }
      }
      const most = longestText(shape.name, name)
      if (found.length > most) {
        return {
          flaw: `${record} has a "${name}" of more than ${most} characters.`,
        }
      }
    }
    values.push(found)
  }
  return { values }
}

function valueFromJson(type: string, value: unknown): Value | undefined {
  if (value === null) return null
  switch (type) {
    case 'DATETIME': {
      if (typeof value !== 'string' || !isoMoment.test(value)) return undefined
      const at = Date.parse(value)
      return Math.abs(at) <= mostMilliseconds ? at : undefined
    }
    case 'BOOLEAN':
      return typeof value === 'boolean' ? Number(value) : undefined
    case 'INTEGER':
    case 'BIGINT':
      return typeof value === 'number' && Number.isSafeInteger(value)
        ? value
        : undefined
    case 'REAL':
      return typeof value === 'number' && Number.isFinite(value)
        ? value
        : undefined
    case 'BLOB': {
      if (typeof value !== 'string') return undefined
      const bytes = Buffer.from(value, 'base64')
      return bytes.toString('base64') === value
        ? bytes.toString('hex').toUpperCase()
        : undefined
    }
    case 'TEXT':
      return typeof value === 'string' ? value : undefined
    default:
      return undefined
  }
}
