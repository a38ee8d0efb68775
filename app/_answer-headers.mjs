// Read by next.config.mjs too, before anything is compiled.

/** What every answer has. */
export const everyAnswer = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'Referrer-Policy', value: 'same-origin' },
  { key: 'X-Frame-Options', value: 'DENY' },
  { key: 'Cross-Origin-Opener-Policy', value: 'same-origin' },
  {
    key: 'Permissions-Policy',
    // The level line of the live camera needs accelerometer and gyroscope: browsers send no motion without both.
    value:
      'camera=(self), microphone=(self), accelerometer=(self), gyroscope=(self), display-capture=(), geolocation=(), hid=(), magnetometer=(), midi=(), payment=(), serial=(), usb=()',
  },
]

/** What is kept here is shown on pages of its own site only; pictures of the portfolio may be shown on others. */
export const ofOwnSite = [
  { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
]
