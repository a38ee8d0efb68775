/** @type {import('next').NextConfig} */
export default {
  poweredByHeader: false,
  reactStrictMode: true,
  // A stranger's request is answered with 403, by app/forbidden.tsx.
  experimental: { authInterrupts: true },
  // Types and lint are checked by `npm test`; a start does not wait for them.
  typescript: { ignoreBuildErrors: true },
  // The app makes its own renditions; the optimizer is attack surface we do not need.
  images: { unoptimized: true },
  // Native modules and readers that must be loaded from node_modules, not bundled.
  serverExternalPackages: [
    'sharp',
    'libsql',
    '@libsql/client',
    '@prisma/adapter-libsql',
    'exifr',
    'busboy',
    '@techstark/opencv-js',
    // Finds the data of its fonts beside its own files.
    'pdfkit',
  ],
  async headers() {
    return [
      {
        source: '/:path*',
        headers: [
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
        ],
      },
      {
        // What is kept here is shown on pages of its own site only; pictures of the portfolio may be shown on others.
        source: '/((?!portfolio(?:/|$)).*)',
        headers: [
          { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
        ],
      },
      {
        source: '/sw.js',
        headers: [{ key: 'Cache-Control', value: 'no-cache' }],
      },
    ]
  },
}
