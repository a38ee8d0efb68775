import path from 'node:path'

/** Where everything lives inside the data folder. */
export type DataFolder = {
  readonly root: string
  readonly database: string
  /** Copies of the database made before it is migrated. */
  readonly copies: string
  readonly lock: string
  readonly originals: string
  readonly renditions: string
  /** Pictures of the portfolio, made from originals and made again where they are missing; one folder a piece. */
  readonly portfolio: string
  /** Files that are still arriving; emptied at each start. */
  readonly arriving: string
  /** The workshop's certificate authority with its key, where phones are let in. */
  readonly authority: string
}

/** The layout of a data folder. */
export function dataFolder(root: string): DataFolder {
  return {
    root,
    database: path.join(root, 'journal.db'),
    copies: path.join(root, 'copies'),
    lock: path.join(root, 'in-use.db'),
    originals: path.join(root, 'originals'),
    renditions: path.join(root, 'renditions'),
    portfolio: path.join(root, 'portfolio'),
    arriving: path.join(root, 'arriving'),
    authority: path.join(root, 'authority'),
  }
}
