import type { MetadataRoute } from 'next'

/** What a phone needs to put the app on its home screen (W3C Web Application Manifest). */
export default function manifest(): MetadataRoute.Manifest {
  return {
    id: '/',
    name: 'Coatbook',
    short_name: 'Coatbook',
    description: 'A photo journal of furniture being refinished.',
    lang: 'en',
    start_url: '/',
    scope: '/',
    display: 'standalone',
    background_color: '#f5f0e6',
    theme_color: '#f5f0e6',
    icons: [
      { src: '/icons/192.png', sizes: '192x192', type: 'image/png' },
      { src: '/icons/512.png', sizes: '512x512', type: 'image/png' },
      {
        src: '/icons/maskable-512.png',
        sizes: '512x512',
        type: 'image/png',
        purpose: 'maskable',
      },
    ],
    shortcuts: [
      { name: 'Snap', url: '/snap' },
      { name: 'Jobs', url: '/jobs' },
    ],
  }
}
