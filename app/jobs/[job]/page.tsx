import { redirect } from 'next/navigation'
import { requireLocalRequest } from '../../_session'

export default async function JobPage({ params }: PageProps<'/jobs/[job]'>) {
  await requireLocalRequest()
  redirect(`/jobs/${(await params).job}/timeline`)
}
