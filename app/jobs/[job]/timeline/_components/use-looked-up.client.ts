import { useEffect, useState } from 'react'

/**
 * What a panel needs from the server, asked for when it opens and whenever it is about something else.
 *
 * @param read an action of the server, the same function each time
 * @returns undefined until it is there; `none` where it could not be had
 */
export function useLookedUp<T extends object>(
  read: (job: string, id: string) => Promise<T | undefined>,
  job: string,
  id: string,
): T | 'none' | undefined {
  const [found, setFound] = useState<T | 'none' | undefined>()
  useEffect(() => {
    let isWanted = true
    read(job, id).then(
      (one) => {
        if (isWanted) setFound(one ?? 'none')
      },
      () => {
        if (isWanted) setFound('none')
      },
    )
    return () => {
      isWanted = false
    }
  }, [read, job, id])
  return found
}
