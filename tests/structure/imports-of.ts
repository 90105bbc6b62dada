import { parseSync, Visitor } from 'vite';

/** One module that a file asks for, as written, and the line that asks. */
export type ImportLine = { readonly specifier: string; readonly line: number; readonly text: string };

/** Every import of a TypeScript source: of values and of types, static and dynamic, and what it exports on from elsewhere. */
export function importsOf(path: string, source: string): ImportLine[] {
  const { module, program, errors } = parseSync(path, source);
  if (errors.length > 0) throw new Error(`${path} cannot be parsed: ${errors[0]?.message}`);
  const found: { specifier: string; at: number }[] = [];
  for (const { moduleRequest } of module.staticImports) found.push({ specifier: moduleRequest.value, at: moduleRequest.start });
  for (const { entries } of module.staticExports)
    for (const { moduleRequest } of entries) if (moduleRequest) found.push({ specifier: moduleRequest.value, at: moduleRequest.start });
  for (const { moduleRequest } of module.dynamicImports)
    found.push({ specifier: source.slice(moduleRequest.start, moduleRequest.end).replace(/^['"`]|['"`]$/g, ''), at: moduleRequest.start });
  new Visitor({
    TSImportType: ({ source: { value }, start }) => void found.push({ specifier: value, at: start }),
  }).visit(program);
  const seen = new Map(found.map(({ specifier, at }) => [`${specifier} ${lineAt(source, at)}`, { specifier, line: lineAt(source, at) }]));
  return [...seen.values()].map(({ specifier, line }) => ({ specifier, line, text: (source.split('\n')[line - 1] ?? '').trim() }));
}

const lineAt = (source: string, offset: number): number => source.slice(0, offset).split('\n').length;
