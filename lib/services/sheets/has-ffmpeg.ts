import 'server-only'
import { execFile } from 'node:child_process'
import { promisify } from 'node:util'

/** Whether this machine can make an MP4. */
export async function hasFfmpeg(): Promise<boolean> {
  try {
    const { stdout } = await promisify(execFile)('ffmpeg', [
      '-hide_banner',
      '-encoders',
    ])
    return stdout.includes('libx264')
  } catch {
    // Not there, or not to be run: the same to who asks.
    return false
  }
}
