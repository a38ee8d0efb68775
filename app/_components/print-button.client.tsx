'use client'

/** Prints the page, as the browser does; or, of the page, only the part with `data-printable` that it stands in. */
export function PrintButton({ children }: { readonly children: string }) {
  return (
    <button
      type="button"
      className="button"
      onClick={(event) => {
        const part = event.currentTarget.closest('[data-printable]')
        part?.setAttribute('data-print-alone', '')
        // Some browsers go on before anything is printed.
        window.addEventListener(
          'afterprint',
          () => {
            part?.removeAttribute('data-print-alone')
          },
          { once: true },
        )
        window.print()
      }}
    >
      {children}
    </button>
  )
}
