'use client'

/** A button that opens the camera or the phone's photos. Two, because a camera's input hides the gallery on some phones. */
export function FileButton({
  children,
  onFiles,
  onOpen,
  capture = false,
  main = false,
}: {
  readonly children: string
  readonly onFiles: (files: readonly File[]) => void
  readonly onOpen?: () => void
  readonly capture?: boolean
  readonly main?: boolean
}) {
  return (
    <label
      className={`button ${main ? 'button-main' : ''} min-h-14 grow has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-(--press) sm:grow-0`}
    >
      {children}
      <PhotoInput capture={capture} onFiles={onFiles} onOpen={onOpen} />
    </label>
  )
}

/** The input inside such a button. */
export function PhotoInput({
  capture,
  onFiles,
  onOpen,
}: {
  readonly capture: boolean
  readonly onFiles: (files: readonly File[]) => void
  /** Called before the camera opens: a phone may end the page while it is. */
  readonly onOpen?: (() => void) | undefined
}) {
  return (
    <input
      type="file"
      accept="image/*,.heic,.heif,.avif"
      className="sr-only"
      {...(capture ? { capture: 'environment' as const } : { multiple: true })}
      onClick={onOpen}
      onChange={(event) => {
        onFiles(Array.from(event.target.files ?? []))
        // The same file can be chosen again.
        event.target.value = ''
      }}
    />
  )
}
