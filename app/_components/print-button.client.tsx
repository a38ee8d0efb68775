'use client'

/** Prints the page, as the browser does. */
export function PrintButton({ children }: { readonly children: string }) {
  return (
    <button
      type="button"
      className="button"
      onClick={() => {
        window.print()
      }}
    >
      {children}
    </button>
  )
}
