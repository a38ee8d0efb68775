import Link from 'next/link'
import { PageHeading } from './_components/page-heading'

export default function NotFoundPage() {
  return (
    <>
      <PageHeading
        title="There is no such page"
        lead="It may have been removed, or the address is not quite right."
      />
      <Link prefetch={false} href="/" className="button button-main">
        Go to the bench
      </Link>
    </>
  )
}
