import { everyAnswer, ofOwnSite } from './app/_answer-headers.mjs'
import { markToCompileEarly } from './app/_compile-early.mjs'

/** @type {import('next').NextConfig} */
export default {
  poweredByHeader: false,
  reactStrictMode: true,
  // Done by app/_scripts-after-paint.ts, after it has changed the pages.
  compress: false,
  compiler: { runAfterProductionCompile: markToCompileEarly },
  // A stranger's request is answered with 403, by app/forbidden.tsx.
  experimental: { authInterrupts: true },
  // Types and lint are checked by `npm test`; a start does not wait for them.
  typescript: { ignoreBuildErrors: true },
  // In development every request is printed with its query, and that of a calendar holds its secret.
  logging: { incomingRequests: { ignore: [/[?&]feed=/] } },
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
    'compression',
    '@techstark/opencv-js',
    // Finds the data of its fonts beside its own files.
    'pdfkit',
  ],
  async headers() {
    return [
      {
        source: '/:path*',
        headers: everyAnswer,
      },
      {
        source: '/((?!portfolio(?:/|$)).*)',
        headers: ofOwnSite,
      },
      {
        source: '/sw.js',
        headers: [{ key: 'Cache-Control', value: 'no-cache' }],
      },
    ]
  },
}
