import { readFileSync } from 'node:fs'
import path from 'node:path'
import ts from 'typescript'

/**
 * What schema.org's own vocabulary says against these values, by their names: each is a Product or a CollectionPage.
 *
 * Source: the package schema-dts, TypeScript definitions generated from schema.org's vocabulary: a name that a type
 * does not have, a value of a wrong type or an unknown member of an enumeration is an error of types.
 */
export function jsonLdFaults(
  values: Readonly<Record<string, unknown>>,
): readonly string[] {
  const root = process.cwd()
  const file = path.join(root, 'tests/support/json-ld-values.ts')
  const source = [
    "import type { CollectionPage, Product, WithContext } from 'schema-dts'",
    ...Object.entries(values).map(
      ([name, value]) =>
        `export const ${name.replace(/-/g, '_')}: WithContext<Product | CollectionPage> = ${JSON.stringify(value)}`,
    ),
  ].join('\n')
  const options: ts.CompilerOptions = {
    strict: true,
    noEmit: true,
    skipLibCheck: true,
    types: [],
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    target: ts.ScriptTarget.ES2022,
  }
  const host = ts.createCompilerHost(options)
  const readSource = host.getSourceFile.bind(host)
  host.getSourceFile = (name, language, ...rest) =>
    path.resolve(name) === file
      ? ts.createSourceFile(name, source, language, true)
      : readSource(name, language, ...rest)
  host.fileExists = (name) =>
    path.resolve(name) === file || ts.sys.fileExists(name)
  host.readFile = (name) =>
    path.resolve(name) === file ? source : readFileSync(name, 'utf8')
  const program = ts.createProgram([file], options, host)
  return ts
    .getPreEmitDiagnostics(program)
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '))
}
