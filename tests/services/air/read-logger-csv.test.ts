import { describe, expect, test } from 'vitest'
import { readLoggerCsv } from '#services/air/read-logger-csv'

const london = 'Europe/London'

/** The readings of a file as `[instant, °C, %]`. */
function readings(text: string, zone = london) {
  const read = readLoggerCsv(text, zone)
  if (!read.ok) throw new Error(read.refusal.detail)
  return read.value.readings.map((one) => [
    new Date(one.at).toISOString(),
    Number(one.celsius.toFixed(3)),
    one.humidity,
  ])
}

function refusal(text: string): string {
  const read = readLoggerCsv(text, london)
  return read.ok ? '' : read.refusal.detail
}

const nine = [['2026-10-24T08:00:00.000Z', 20.5, 51]]

describe('the columns of a logger’s file', () => {
  test.each([
    [
      'plain words',
      'time,temperature (°C),humidity (%)\n2026-10-24 09:00,20.5,51',
    ],
    ['short words', 'Timestamp,Temp [C],RH%\n2026-10-24 09:00:00,20.5,51'],
    ['underscores', 'date_time,temp_c,rel_humidity\n2026-10-24T09:00,20.5,51'],
    ['symbols', 'Time;T (°C);RH (%)\n2026-10-24 09:00;20,5;51'],
    [
      'a decimal comma and semicolons',
      'Date/Time;Temperature °C;Humidity %\n24.10.2026 09:00;20,5;51,0',
    ],
    ['tabs', 'Time\tCelsius\tRelative Humidity\n2026-10-24 09:00\t20.5\t51'],
    [
      'quotes',
      '"Time","Temperature, °C","RH, %"\n"2026-10-24 09:00","20.5","51"',
    ],
    [
      'quoted decimal commas',
      'time,temperature (°C),humidity (%)\n2026-10-24 09:00,"20,5","51,0"',
    ],
    [
      'units after the numbers',
      'time,temperature (°C),humidity\n2026-10-24 09:00,20.5 °C,51 %',
    ],
    [
      'date and time apart',
      'Date,Time,Temperature (°C),Humidity (%)\n2026-10-24,09:00,20.5,51',
    ],
    [
      'another order and more columns',
      'No.,Humidity (%),Dew point (°C),Temperature (°C),Time\n1,51,10.1,20.5,2026-10-24 09:00',
    ],
    [
      'both units',
      'Time,Temperature (°F),Temperature (°C),RH\n2026-10-24 09:00,68.9,20.5,51',
    ],
    [
      'lines before the header',
      'Logger: bay one\r\nSerial: 7\r\n\r\nTime,Temperature (°C),Humidity (%)\r\n2026-10-24 09:00,20.5,51\r\n',
    ],
    [
      'a mark at the front',
      '\uFEFFTime,Temperature (°C),Humidity (%)\n2026-10-24 09:00,20.5,51',
    ],
  ])('are found with %s', (_, text) => {
    expect(readings(text)).toEqual(nine)
  })

  test('°F are turned into °C', () => {
    // 68 °F is 20 °C and -40 is -40, by definition: C = (F - 32) / 1.8 (NIST SP 811, appendix B.8).
    expect(
      readings(
        'time,temp_f,humidity\n2026-10-24 09:00,68,51\n2026-10-24 09:30,-40,51',
      ),
    ).toEqual([
      ['2026-10-24T08:00:00.000Z', 20, 51],
      ['2026-10-24T08:30:00.000Z', -40, 51],
    ])
  })

  test.each([
    [
      'no unit of temperature',
      'time,temperature,humidity\n2026-10-24 09:00,20.5,51',
      /°C or in °F/,
    ],
    [
      'two temperatures',
      'time,temp 1 (°C),temp 2 (°C),rh\n2026-10-24 09:00,20.5,21,51',
      /several columns of temperature/,
    ],
    [
      'two humidities',
      'time,temp (°C),rh 1,rh 2\n2026-10-24 09:00,20.5,51,52',
      /2 columns of relative humidity/,
    ],
    [
      'two times',
      'start time,end time,temp (°C),rh\n2026-10-24 09:00,2026-10-24 09:30,20.5,51',
      /several columns of times/,
    ],
    ['no header', '2026-10-24 09:00,20.5,51', /header such as/],
    [
      'only the dew point',
      'time,dew point (°C),rh\n2026-10-24 09:00,10,51',
      /header such as|no column/,
    ],
    ['nothing', '', /header such as/],
    [
      'a quote that never ends',
      'time,temp (°C),rh\n"2026-10-24 09:00,20.5,51\n',
      /quotes/,
    ],
    ['no lines under the header', 'time,temp (°C),rh\n', /No line/],
  ])('with %s are refused', (_, text, said) => {
    expect(refusal(text)).toMatch(said)
  })
})

describe('the times of a logger’s file', () => {
  const withTime = (...times: readonly string[]) =>
    `Time,Temperature (°C),Humidity (%)\n${times.map((time) => `"${time}",20.5,51`).join('\n')}\n`
  const instants = (...times: readonly string[]) =>
    readings(withTime(...times)).map(([at]) => at)

  test.each([
    ['an offset', '2026-10-24T10:00:00+02:00'],
    ['an offset without a colon', '2026-10-24 10:00:00 +0200'],
    ['UTC', '2026-10-24T08:00:00Z'],
    ['seconds since 1970', '1792828800'],
    ['milliseconds since 1970', '1792828800000'],
    ['the day first', '24/10/2026 09:00'],
    ['the month first', '10/24/2026 9:00 AM'],
    ['dots', '24.10.2026 09:00:00'],
    ['slashes and the year first', '2026/10/24 09:00'],
  ])('are read with %s', (_, time) => {
    expect(instants(time)).toEqual(['2026-10-24T08:00:00.000Z'])
  })

  test('noon and midnight are told apart by their halves of the day', () => {
    expect(instants('10/24/2026 12:30 AM', '10/24/2026 12:30 PM')).toEqual([
      '2026-10-23T23:30:00.000Z',
      '2026-10-24T11:30:00.000Z',
    ])
  })

  test.each([
    ['UTC', 'Time (UTC)', '2026-10-24T09:00:00.000Z'],
    ['an offset', '"Date Time, GMT+02:00"', '2026-10-24T07:00:00.000Z'],
  ])('are read in %s where the header says so', (_, header, at) => {
    expect(
      readings(
        `${header},Temperature (°C),Humidity (%)\n2026-10-24 09:00,20.5,51`,
      )[0]?.[0],
    ).toBe(at)
  })

  test('one date that fits only one way settles the others', () => {
    expect(instants('03/10/2026 09:00', '24/10/2026 09:00')).toEqual([
      '2026-10-03T08:00:00.000Z',
      '2026-10-24T08:00:00.000Z',
    ])
  })

  test('a day and a month that may change places are refused', () => {
    expect(refusal(withTime('03/10/2026 09:00'))).toMatch(
      /the day or the month first/,
    )
    expect(refusal(withTime('24/10/2026 09:00', '10/25/2026 09:00'))).toMatch(
      /some the month/,
    )
  })

  test.each([
    ['day', '03/10/2026 23:50', '04/10/2026 00:00', '2026-10-03T22:50:00.000Z'],
    [
      'month',
      '10/03/2026 23:50',
      '10/04/2026 00:00',
      '2026-10-03T22:50:00.000Z',
    ],
  ])(
    'days that follow each other tell that the %s comes first',
    (_, before, after, at) => {
      expect(instants(before, after)[0]).toBe(at)
    },
  )

  test('what the owner says settles dates that nothing in the file does', () => {
    const text = withTime('03/10/2026 09:00')
    const read = (order: 'day-first' | 'month-first') => {
      const found = readLoggerCsv(text, london, order)
      return found.ok ? found.value.readings[0]?.at : found.refusal.detail
    }
    expect(read('day-first')).toBe(Date.parse('2026-10-03T08:00:00Z'))
    expect(read('month-first')).toBe(Date.parse('2026-03-10T09:00:00Z'))
  })

  test('and never overrules what the file tells', () => {
    const found = readLoggerCsv(
      withTime('03/10/2026 09:00', '24/10/2026 09:00'),
      london,
      'month-first',
    )
    expect(found.ok && found.value.readings[0]?.at).toBe(
      Date.parse('2026-10-03T08:00:00Z'),
    )
  })

  // In London the clocks went back from 02:00 to 01:00 on 25 October 2026 (IANA time zone database, GB-Eire rule:
  // the last Sunday of October at 01:00 UTC).
  const repeated = [
    '2026-10-25 00:30',
    '2026-10-25 01:00',
    '2026-10-25 01:30',
    '2026-10-25 01:00',
    '2026-10-25 01:30',
    '2026-10-25 02:00',
  ]
  const inOrder = [
    '2026-10-24T23:30:00.000Z',
    '2026-10-25T00:00:00.000Z',
    '2026-10-25T00:30:00.000Z',
    '2026-10-25T01:00:00.000Z',
    '2026-10-25T01:30:00.000Z',
    '2026-10-25T02:00:00.000Z',
  ]

  test('the hour that the clocks repeat is told apart by the order of the lines', () => {
    expect(instants(...repeated)).toEqual(inOrder)
  })

  test('and just so when the newest line comes first', () => {
    expect(instants(...repeated.toReversed())).toEqual(inOrder)
  })
})

test('lines without a reading are left out and counted', () => {
  const read = readLoggerCsv(
    'Time,Temperature (°C),Humidity (%)\n2026-10-24 09:00,20.5,51\n2026-10-24 09:30,--,--\n2026-02-30 09:00,20,50\n2026-10-24 10:00,99,50\nend of file\n',
    london,
  )
  expect(read).toMatchObject({
    ok: true,
    value: {
      readings: [{ celsius: 20.5 }],
      warnings: ['4 of 5 lines hold no reading and were left out.'],
    },
  })
})
