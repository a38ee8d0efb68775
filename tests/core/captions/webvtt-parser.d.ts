declare module 'webvtt-parser' {
  type Node = {
    readonly type: string
    readonly value?: string
    readonly children?: readonly Node[]
  }
  export class WebVTTParser {
    constructor(entities?: Readonly<Record<string, unknown>>)
    parse(
      file: string,
      mode: string,
    ): {
      readonly cues: readonly {
        readonly id: string
        readonly startTime: number
        readonly endTime: number
        readonly tree: Node
      }[]
      readonly errors: readonly { readonly message: string }[]
    }
  }
}
