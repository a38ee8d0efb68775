'use client'

import {
  startTransition,
  useCallback,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'react'
import { flushSync } from 'react-dom'

/** The room before the first mark. */
export const edgePixels = 16
/** What a finger hits. */
export const fingerPixels = 44
/** The room behind the last moment, for the mark that begins there. */
const endPixels = 84
/** Closest: three seconds are a pixel wide. */
const mostPixelsPerMinute = 20
/** A sheet of paper is about so wide. */
const paperPixels = 680

type View = { readonly from: number; readonly to: number }
/** A place that stays where it is on the screen while all around it changes. */
type Anchor = { readonly place: number; readonly pixels: number }

/**
 * How close a drawing is looked at, by buttons, keys, wheel and pinch, and which of its places are on the screen or near
 * it. The frame scrolls by itself; the view changes only when it has gone half a screen, so that scrolling draws little.
 *
 * @param length of the drawing, in drawn minutes
 */
export function useZoom(length: number) {
  const frame = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  const [chosen, setChosen] = useState<number | undefined>()
  const [half, setHalf] = useState(0)
  const anchor = useRef<Anchor | undefined>(undefined)
  const least = Math.max(
    0.0001,
    (Math.max(width, 200) - edgePixels - endPixels) / length,
  )
  const pixelsPerMinute = Math.max(least, chosen ?? least)
  const current = useRef(pixelsPerMinute)

  useLayoutEffect(() => {
    current.current = pixelsPerMinute
    if (anchor.current === undefined) return
    const { place, pixels } = anchor.current
    anchor.current = undefined
    frame.current?.scrollTo({
      left: edgePixels + place * pixelsPerMinute - pixels,
    })
  }, [pixelsPerMinute])

  const move = useCallback((next: number, { place, pixels }: Anchor) => {
    const element = frame.current
    if (element === null) return
    anchor.current = { place, pixels }
    setChosen(next)
    // What will be on the screen is drawn at once, before the frame has scrolled there.
    const left = Math.max(0, edgePixels + place * next - pixels)
    setHalf(Math.round(left / (element.clientWidth / 2)))
  }, [])

  const setZoom = useCallback(
    (next: number, pixels: number) => {
      const element = frame.current
      if (element === null) return
      const place = (element.scrollLeft + pixels - edgePixels) / current.current
      move(Math.min(mostPixelsPerMinute, next), { place, pixels })
    },
    [move],
  )

  useEffect(() => {
    const element = frame.current
    if (element === null) return undefined
    const measure = () => {
      // All that is drawn comes of it, in small pieces that a finger need not wait for.
      startTransition(() => {
        setWidth(element.clientWidth)
      })
    }
    const look = () => {
      setHalf(Math.round(element.scrollLeft / (element.clientWidth / 2)))
    }
    const middle = () => element.clientWidth / 2
    const turnWheel = (event: WheelEvent) => {
      if (!event.ctrlKey) return
      event.preventDefault()
      const pixels = event.clientX - element.getBoundingClientRect().left
      setZoom(current.current * Math.exp(-event.deltaY / 200), pixels)
    }
    let pinch: { apart: number; zoom: number } | undefined
    const touch = (event: TouchEvent) => {
      const [one, other] = event.touches
      if (one === undefined || other === undefined) {
        pinch = undefined
        return
      }
      event.preventDefault()
      const apart = Math.max(
        20,
        Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY),
      )
      pinch ??= { apart, zoom: current.current }
      const pixels =
        (one.clientX + other.clientX) / 2 - element.getBoundingClientRect().left
      setZoom((pinch.zoom * apart) / pinch.apart, pixels)
    }
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return
      if (event.key === '+' || event.key === '=')
        setZoom(current.current * 1.5, middle())
      else if (event.key === '-') setZoom(current.current / 1.5, middle())
      else if (event.key === '0') move(0, { place: 0, pixels: edgePixels })
      else return
      event.preventDefault()
    }
    const print = () => {
      flushSync(() => {
        setChosen(undefined)
        setWidth(paperPixels)
      })
    }
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    element.addEventListener('scroll', look, { passive: true })
    element.addEventListener('wheel', turnWheel, { passive: false })
    element.addEventListener('touchstart', touch, { passive: false })
    element.addEventListener('touchmove', touch, { passive: false })
    element.addEventListener('touchend', touch)
    element.addEventListener('keydown', press)
    // Before the photos that it brings are looked for.
    window.addEventListener('beforeprint', print, { capture: true })
    window.addEventListener('afterprint', measure)
    return () => {
      observer.disconnect()
      element.removeEventListener('scroll', look)
      element.removeEventListener('wheel', turnWheel)
      element.removeEventListener('touchstart', touch)
      element.removeEventListener('touchmove', touch)
      element.removeEventListener('touchend', touch)
      element.removeEventListener('keydown', press)
      window.removeEventListener('beforeprint', print, { capture: true })
      window.removeEventListener('afterprint', measure)
    }
  }, [move, setZoom])

  const view: View | undefined =
    width === 0
      ? undefined
      : {
          from: (half / 2 - 0.75) * (width / pixelsPerMinute),
          to: (half / 2 + 1.75) * (width / pixelsPerMinute),
        }
  return {
    /** What scrolls. */
    frame,
    pixelsPerMinute,
    view,
    by: (factor: number) => {
      setZoom(pixelsPerMinute * factor, width / 2)
    },
    toWhole: () => {
      move(0, { place: 0, pixels: edgePixels })
    },
    /** Brings two places to the ends of the screen; false when it cannot come closer. */
    toPlaces: (from: number, to: number): boolean => {
      if (pixelsPerMinute >= mostPixelsPerMinute) return false
      const room = Math.max(1, width - edgePixels - endPixels)
      const next = Math.min(
        mostPixelsPerMinute,
        Math.max(pixelsPerMinute * 2, room / Math.max(to - from, 1)),
      )
      move(next, { place: from, pixels: edgePixels })
      return true
    },
  }
}
