import { PageHeading } from './_components/page-heading'

export default function ForbiddenPage() {
  return (
    <PageHeading
      title="Not from here"
      lead="This workshop does not answer by that name, to a page of another site, or through a proxy. Open it at http://localhost on the desk computer, or at the address that it shows there under Workshop."
    />
  )
}
