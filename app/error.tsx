'use client'

export default function ErrorPage({
  unstable_retry,
}: {
  readonly error: Error & { readonly digest?: string }
  readonly unstable_retry: () => void
}) {
  return (
    <div role="alert" className="flex flex-col items-start gap-4">
      <h1 className="text-title font-bold">Something broke on our side</h1>
      <p className="max-w-prose">
        What was saved before is safe. Try again; if it breaks once more, look
        at the window in which Coatbook was started, where the reason is
        written.
      </p>
      <button
        type="button"
        className="button button-main"
        onClick={() => {
          unstable_retry()
        }}
      >
        Try again
      </button>
    </div>
  )
}
