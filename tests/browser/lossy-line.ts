import { type Server, type Socket, connect, createServer } from 'node:net'

/** A line between browser and server that can be cut, and that can lose answers after the server has done its work. */
export type LossyLine = {
  readonly port: number
  readonly cut: () => void
  readonly mend: () => void
  /** Loses the answers to what is created, by their number from 1 on. */
  readonly lose: (numbers: readonly number[], thenCut: boolean) => void
  readonly lost: () => number
  readonly close: () => Promise<void>
}

/** Opens such a line to a port of this machine. */
export async function openLine(to: number): Promise<LossyLine> {
  const sockets = new Set<Socket>()
  let isCut = false
  let losing: readonly number[] = []
  let thenCut = false
  let created = 0
  let lost = 0
  const cut = () => {
    isCut = true
    for (const socket of sockets) socket.destroy()
  }
  const server: Server = createServer((near) => {
    if (isCut) {
      near.destroy()
      return
    }
    const far = connect(to, '127.0.0.1')
    for (const socket of [near, far]) {
      sockets.add(socket)
      socket.on('close', () => {
        sockets.delete(socket)
        near.destroy()
        far.destroy()
      })
      socket.on('error', () => socket.destroy())
    }
    near.pipe(far)
    far.on('data', (chunk: Buffer) => {
      if (chunk.toString('latin1', 0, 12) === 'HTTP/1.1 201') {
        created += 1
        if (losing.includes(created)) {
          lost += 1
          if (thenCut && lost === losing.length) cut()
          else near.destroy()
          return
        }
      }
      near.write(chunk)
    })
  })
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve)
  })
  const address = server.address()
  return {
    port: typeof address === 'object' && address !== null ? address.port : 0,
    cut,
    mend: () => {
      isCut = false
    },
    lose: (numbers, cutAfterwards) => {
      losing = numbers
      thenCut = cutAfterwards
      created = 0
      lost = 0
    },
    lost: () => lost,
    close: () =>
      new Promise((resolve) => {
        cut()
        server.close(() => {
          resolve()
        })
      }),
  }
}
