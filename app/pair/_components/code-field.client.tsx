'use client'

import { useEffect, useState } from 'react'
import { TextField } from '../../_components/field.client'

/**
 * The field for the pairing code. A phone that came by the picture has it behind the `#` of its address, which is never
 * sent to a server and so is in no log; it is taken from there, and from the address bar.
 */
export function CodeField() {
  const [code, setCode] = useState('')
  useEffect(() => {
    const brought = decodeURIComponent(location.hash.slice(1))
    if (brought === '') return
    history.replaceState(null, '', location.pathname)
    // The server cannot know it, so it comes after the first drawing.
    // eslint-disable-next-line react-hooks/set-state-in-effect
    setCode(brought)
  }, [])
  return (
    <TextField
      key={code}
      name="code"
      label="Code"
      defaultValue={code}
      autoComplete="off"
      maxLength={40}
    />
  )
}
