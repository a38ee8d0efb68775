import type { Metadata, Viewport } from 'next'
import { cookies } from 'next/headers'
import { type ReactNode, Suspense } from 'react'
import { MainNavigation } from './_components/main-navigation.client'
import { OwnFont } from './_components/own-font.client'
import { PaperPhotos } from './_components/paper-photos.client'
import { PageAlive } from './_components/page-alive.client'
import { PageComing } from './_components/page-coming.client'
import { ServiceWorker } from './_components/service-worker.client'
import { SnapPlace } from './_components/snap-place'
import { ownFontCookie } from './_own-font'
import { isLocalRequest } from './_session'
import './globals.css'

// Every page shows the journal as it is now.
export const dynamic = 'force-dynamic'

export const metadata: Metadata = {
  title: { default: 'Coatbook', template: '%s · Coatbook' },
  description: 'A photo journal of furniture being refinished.',
}

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#f5f0e6' },
    { media: '(prefers-color-scheme: dark)', color: '#16120e' },
  ],
}

export default async function RootLayout({
  children,
}: {
  readonly children: ReactNode
}) {
  const hasFont = (await cookies()).has(ownFontCookie)
  return (
    // A page that was kept on the phone has a mark here that the server did not write.
    <html
      lang="en"
      className={hasFont ? 'own-font' : undefined}
      suppressHydrationWarning
    >
      <body className="text-body flex flex-col pb-44 sm:pb-24 pointer-fine:sm:pb-0 print:pb-0">
        <a
          href="#content"
          className="button button-main absolute -top-24 left-2 z-50 focus:top-2"
        >
          Skip to content
        </a>
        <MainNavigation />
        <Suspense>
          <PageComing />
        </Suspense>
        <div className="kept-note bg-late-soft text-late px-4 py-2 font-semibold">
          <p>
            <span className="kept-instead-note">
              The page that you asked for is not kept on this phone; here is the
              bench in its place.{' '}
            </span>
            The workshop does not answer. This is the page as this phone saw it
            last; photos that you take are kept here and sent later.
          </p>
          {/* It asks for the same page again. */}
          <form>
            <button className="link min-h-12">Look whether it answers</button>
          </form>
        </div>
        {!hasFont && <OwnFont />}
        <PaperPhotos />
        <ServiceWorker letIn={await isLocalRequest()} />
        <main
          id="content"
          tabIndex={-1}
          className="mx-auto w-full max-w-6xl grow px-4 pt-4 pb-12 outline-none sm:px-6 sm:pt-6 print:max-w-none print:p-0"
        >
          {children}
        </main>
        <SnapPlace />
        <PageAlive />
      </body>
    </html>
  )
}
