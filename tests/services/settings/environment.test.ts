import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { readEnvironment } from '#services/settings/environment'

describe('the settings from outside', () => {
  test('have defaults, with the machine’s own zone', () => {
    expect(readEnvironment({})).toEqual({
      dataFolder: path.resolve('data'),
      demo: true,
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      port: 3000,
      lanPort: 3443,
    })
  })

  test('are taken as they are given', () => {
    expect(
      readEnvironment({
        COATBOOK_DATA: '/srv/journal',
        COATBOOK_DEMO: 'off',
        COATBOOK_ZONE: 'Europe/London',
        PORT: '8080',
        COATBOOK_LAN_PORT: '8443',
      }),
    ).toEqual({
      dataFolder: '/srv/journal',
      demo: false,
      zone: 'Europe/London',
      port: 8080,
      lanPort: 8443,
    })
  })

  test.each([
    ['PORT', 'http'],
    ['PORT', '70000'],
    ['COATBOOK_LAN_PORT', '0'],
    ['COATBOOK_DEMO', 'no'],
    ['COATBOOK_ZONE', 'Alder/Yard'],
    ['COATBOOK_DATA', ''],
  ])('name the one that cannot be used: %s=%s', (name, value) => {
    expect(() => readEnvironment({ [name]: value })).toThrow(name)
  })
})
