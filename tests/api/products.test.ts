import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { callApi, memberOf, textOf } from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const enamel = {
  name: 'waterborne enamel, moss',
  category: 'paint',
  chemistry: 'waterborne-acrylic',
  label: {
    touchMinutes: 30,
    recoatMinutes: 60,
    recoatByMinutes: 10_080,
    reference: { celsius: 25, humidity: 50 },
    minCelsius: 10,
    maxHumidity: 85,
  },
  pack: { amount: 1, unit: 'l', price: '24.50' },
  link: 'https://shelf.example/moss',
}

describe('the shelf', () => {
  test('keeps what the can says, and the price in minor units', async () => {
    const answer = await callApi('POST', '/api/products', { body: enamel })
    expect(answer.status).toBe(201)
    const kept: unknown = await answer.clone().json()
    expect(kept).toMatchObject({
      ...enamel,
      pack: { amount: 1, unit: 'l', price: 2450 },
    })
    const id = await textOf(answer, 'id')
    const one = await callApi('GET', `/api/products/${id}`)
    expect(await one.json()).toEqual(kept)
    const shelf = await callApi('GET', '/api/products')
    expect(await shelf.json()).toEqual({ products: [kept] })
  })

  test('takes a correction of a label, and forgets what is left out', async () => {
    const answer = await callApi('POST', '/api/products', { body: enamel })
    const id = await textOf(answer, 'id')
    const changed = await callApi('PUT', `/api/products/${id}`, {
      body: { ...enamel, label: { recoatMinutes: 90 }, link: undefined },
    })
    expect(changed.status).toBe(200)
    expect(await memberOf(changed, 'label')).toEqual({ recoatMinutes: 90 })
    expect(await memberOf(changed, 'link')).toBeUndefined()
  })

  test('keeps the two windows of an aerosol', async () => {
    const recoatWindows = [
      { fromMinutes: 0, toMinutes: 60 },
      { fromMinutes: 2880, needs: 'scuff' },
    ]
    const answer = await callApi('POST', '/api/products', {
      body: { ...enamel, chemistry: 'aerosol', label: { recoatWindows } },
    })
    expect(await memberOf(answer, 'label', 'recoatWindows')).toEqual(
      recoatWindows,
    )
  })

  test.each([
    ['a chemistry that there is none of', { chemistry: 'magic' }, 'chemistry'],
    ['a category that there is none of', { category: 'thing' }, 'category'],
    ['no name', { name: '' }, 'name'],
    [
      'a time below nothing',
      { label: { recoatMinutes: -1 } },
      'label.recoatMinutes',
    ],
    [
      'a time as text',
      { label: { recoatMinutes: 'an hour' } },
      'label.recoatMinutes',
    ],
    [
      'a latest time before the earliest',
      { label: { recoatMinutes: 60, recoatByMinutes: 30 } },
      'label.recoatByMinutes',
    ],
    [
      'a window that ends before it begins',
      { label: { recoatWindows: [{ fromMinutes: 60, toMinutes: 10 }] } },
      'label.recoatWindows.0.toMinutes',
    ],
    [
      'more solids than all of it',
      { label: { solidsByVolume: 38 } },
      'label.solidsByVolume',
    ],
    ['a link that is a script', { link: 'javascript:alert(1)' }, 'link'],
    [
      'a price with three places',
      { pack: { amount: 1, unit: 'l', price: '24.505' } },
      'pack.price',
    ],
    [
      'an empty pack',
      { pack: { amount: 0, unit: 'l', price: 1 } },
      'pack.amount',
    ],
  ])('%s is refused, and the field is named', async (_, wrong, field) => {
    const answer = await callApi('POST', '/api/products', {
      body: { ...enamel, ...wrong },
    })
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe(field)
  })

  test('a product that is not there cannot be changed', async () => {
    const answer = await callApi('PUT', '/api/products/nowhere', {
      body: enamel,
    })
    expect(answer.status).toBe(404)
  })
})

describe('a price as text', () => {
  const inCurrency = (currency: string) =>
    changeWorkshop(
      { name: 'Alder Yard', zone: 'Europe/London', currency, units: 'metric' },
      instant(Date.parse('2026-10-22T08:00:00Z')),
    )

  // ISO 4217: the yen has no decimals, the Kuwaiti dinar three.
  test.each([
    ['JPY', '2450', 2450],
    ['KWD', '24.505', 24_505],
    ['GBP', '24.5', 2450],
  ])('has the decimals of %s', async (currency, price, minor) => {
    await inCurrency(currency)
    const answer = await callApi('POST', '/api/products', {
      body: { ...enamel, pack: { amount: 1, unit: 'l', price } },
    })
    expect(await memberOf(answer, 'pack', 'price')).toBe(minor)
  })

  test.each([
    ['JPY', '24.50'],
    ['KWD', '24.5055'],
  ])(
    'of %s with more decimals than it has is refused',
    async (currency, price) => {
      await inCurrency(currency)
      const answer = await callApi('POST', '/api/products', {
        body: { ...enamel, pack: { amount: 1, unit: 'l', price } },
      })
      expect(answer.status).toBe(400)
      expect(await memberOf(answer, 'errors', 0, 'path')).toBe('pack.price')
    },
  )
})
