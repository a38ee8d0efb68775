import { execFileSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, inject } from 'vitest'
import { closeDatabase } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { workshopZone } from './workshop'

/** A disk in memory with a data folder on it. */
export type OwnDisk = {
  readonly root: string
  /** Whether it could be mounted, which needs the right to; its tests are skipped otherwise. */
  readonly isMounted: boolean
  readonly setMegabytes: (megabytes: number) => void
  /** What is opened from now on can or cannot be written; what is open already stays as it is. */
  readonly setWritable: (isWritable: boolean) => void
}

/**
 * Gives the tests of a file a disk of their own with an empty, migrated journal on it, and takes it away afterwards. Call
 * it once at the top. Where none can be mounted, that is printed.
 */
export function useOwnDisk(name: string, megabytes: number): OwnDisk {
  const root = mkdtempSync(path.join(tmpdir(), `coatbook-${name}-`))
  const isMounted = mounted(name, megabytes, root)
  beforeAll(() => {
    if (isMounted) {
      copyFileSync(inject('templateDatabase'), dataFolder(root).database)
    }
    process.env['COATBOOK_DATA'] = root
    process.env['COATBOOK_ZONE'] = workshopZone
  })
  afterAll(async () => {
    await renditionsIdle()
    await closeDatabase()
    if (isMounted) unmount(root)
    rmSync(root, { recursive: true, force: true })
    delete process.env['COATBOOK_DATA']
    delete process.env['COATBOOK_ZONE']
  })
  return {
    root,
    isMounted,
    setMegabytes: (size) => {
      mount('-o', `remount,size=${size}m`, root)
    },
    setWritable: (isWritable) => {
      if (isWritable) {
        unmount(root)
        return
      }
      // A disk on which files are open for writing cannot be made read-only; a second mount over it can.
      mount('--bind', root, root)
      mount('-o', 'remount,bind,ro', root)
    },
  }
}

function mounted(name: string, megabytes: number, root: string): boolean {
  try {
    mount('-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', root)
    return true
  } catch {
    process.stderr.write(`${name}: no right to mount a disk, so not tried\n`)
    return false
  }
}

function mount(...args: readonly string[]): void {
  execFileSync('mount', args, { stdio: 'ignore' })
}

function unmount(root: string): void {
  execFileSync('umount', ['-l', root])
}
