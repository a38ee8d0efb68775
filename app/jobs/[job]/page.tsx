import { redirect } from 'next/navigation'

export default async function JobPage({ params }: PageProps<'/jobs/[job]'>) {
  redirect(`/jobs/${(await params).job}/timeline`)
}
