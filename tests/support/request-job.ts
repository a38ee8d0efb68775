import { type APIRequestContext, expect } from '@playwright/test'

/** A job with one piece, made through the interface of a running server. */
export type RequestedJob = {
  readonly id: string
  /** The ids of its surfaces, in order. */
  readonly surfaces: readonly string[]
}

/**
 * Starts a job with one piece on a running server.
 *
 * @param piece its name, which is its kind as well
 * @param surfaces their names
 */
export async function requestJob(
  request: APIRequestContext,
  title: string,
  piece: string,
  surfaces: readonly string[],
): Promise<RequestedJob> {
  const answer = await request.post('/api/jobs', {
    data: { title, pieces: [{ name: piece, kind: piece, surfaces }] },
  })
  expect(answer.status()).toBe(201)
  const { id, pieces } = (await answer.json()) as {
    readonly id: string
    readonly pieces: readonly {
      readonly surfaces: readonly { readonly id: string }[]
    }[]
  }
  return {
    id,
    surfaces: pieces.flatMap((one) => one.surfaces.map((two) => two.id)),
  }
}

/**
 * Shelves a waterborne paint on a running server and puts a coat of it on all surfaces of a job.
 *
 * @param product its name, and its label's least wait in minutes
 * @param startedAt and `finishedAt`: ISO 8601
 */
export async function requestCoat(
  request: APIRequestContext,
  { id, surfaces }: RequestedJob,
  product: { readonly name: string; readonly recoatMinutes: number },
  startedAt: string,
  finishedAt = startedAt,
): Promise<void> {
  const shelved = await request.post('/api/products', {
    data: {
      name: product.name,
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { recoatMinutes: product.recoatMinutes },
    },
  })
  const { id: used } = (await shelved.json()) as { readonly id: string }
  const step = await request.post(`/api/jobs/${id}/steps`, {
    data: { kind: 'coat', surfaces, product: used, startedAt, finishedAt },
  })
  expect(step.status()).toBe(201)
}
