import { readFileSync } from 'node:fs'
import path from 'node:path'

/** What the pictures of a workshop at work are taken of. */
export type PicturedWork = {
  /** A job on which coats are wet and ready. */
  readonly job: string
  /** A job to which nothing was done yet. */
  readonly fresh: string
}

type Job = {
  readonly id: string
  readonly pieces: readonly {
    readonly id: string
    readonly surfaces: readonly { readonly id: string }[]
  }[]
}

/**
 * Fills an empty workshop through its interface with what the demo, whose work is over, does not show: a coat that is wet,
 * windows that are open and closing, photos that nobody placed, a job that has only begun, and a bin with things in it.
 *
 * @param address of the server
 */
export async function beginWork(address: string): Promise<PicturedWork> {
  const ask = async (to: string, request: RequestInit) => {
    const answer = await fetch(`${address}/api/${to}`, request)
    if (!answer.ok) throw new Error(`${to} answered ${answer.status}`)
    return answer
  }
  const send = async <Answer>(to: string, body: unknown): Promise<Answer> => {
    const answer = await ask(to, {
      method: 'POST',
      ...(body instanceof FormData
        ? { body }
        : {
            body: JSON.stringify(body),
            headers: { 'content-type': 'application/json' },
          }),
    })
    return (await answer.json()) as Answer
  }
  const remove = (what: string) => ask(what, { method: 'DELETE' })
  const ago = (minutes: number) =>
    new Date(Date.now() - minutes * 60_000).toISOString()
  const addJob = (title: string, pieces: Readonly<Record<string, string[]>>) =>
    send<Job>('jobs', {
      title,
      pieces: Object.entries(pieces).map(([name, surfaces]) => ({
        name,
        kind: name,
        surfaces,
      })),
    })

  await send('air', { at: ago(30), celsius: 19.5, humidity: 52 })
  const primer = await send<{ readonly id: string }>('products', {
    name: 'bonding primer, white',
    category: 'primer',
    chemistry: 'waterborne-acrylic',
    label: { recoatMinutes: 60, cureDays: 7 },
  })
  const clear = await send<{ readonly id: string }>('products', {
    name: 'waterborne clear coat, satin',
    category: 'clear coat',
    chemistry: 'waterborne-acrylic',
    label: { recoatMinutes: 120, recoatByMinutes: 1440, cureDays: 21 },
  })
  const { id: job, pieces } = await addJob('Ash table and chair', {
    table: ['top', 'legs', 'underside'],
    chair: ['body', 'seat'],
    stool: ['body'],
  })
  const [table, chair, stool] = pieces
  const addStep = (
    kind: string,
    surface: string | undefined,
    product: { readonly id: string } | undefined,
    minutes: number,
  ) =>
    send(`jobs/${job}/steps`, {
      kind,
      surfaces: [surface],
      product: product?.id,
      startedAt: ago(minutes + 25),
      finishedAt: ago(minutes),
    })
  await addStep('sand', table?.surfaces[0]?.id, undefined, 26 * 60)
  await addStep('seal', table?.surfaces[0]?.id, clear, 22 * 60)
  await addStep('prime', table?.surfaces[1]?.id, primer, 20)
  await addStep('prime', chair?.surfaces[0]?.id, primer, 5 * 60)

  const photos = new FormData()
  for (const name of ['04-scuffed', '05-primer-1', '06-primer-2']) {
    photos.append('file', demoPhoto(name), `${name}.jpg`)
  }
  const kept = await send<{ readonly photos: readonly { id: string }[] }>(
    `jobs/${job}/photos`,
    photos,
  )
  await remove(`jobs/${job}/photos/${kept.photos[0]?.id ?? ''}`)
  await remove(`jobs/${job}/surfaces/${table?.surfaces[2]?.id ?? ''}`)
  await remove(`jobs/${job}/pieces/${stool?.id ?? ''}`)
  const { id: gone } = await addJob('Beech chair', { chair: ['body'] })
  await remove(`jobs/${gone}`)
  const { id: fresh } = await addJob('Pine stool', { stool: ['body'] })
  return { job, fresh }
}

function demoPhoto(name: string): Blob {
  const file = path.join('prisma', 'demo', 'photos', 'job-b', `${name}.jpg`)
  return new Blob([readFileSync(file)], { type: 'image/jpeg' })
}
