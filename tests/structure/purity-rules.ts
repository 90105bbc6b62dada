import { type ESTree, parseSync, Visitor } from 'vite';

/**
 * Names of the world outside: clocks, chance, storage, network. The engine takes them as arguments. Those of a screen (document, window)
 * are left to the type check, which knows none of them there, since a file's own variables may be called so.
 */
const OUTSIDE = new Set([
  'Date',
  'performance',
  'crypto',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'setTimeout',
  'setInterval',
  'requestAnimationFrame',
  'queueMicrotask',
  'process',
  'localStorage',
  'sessionStorage',
  'indexedDB',
  'console',
  'eval',
  'Function',
]);

/** Uses of the outside world in one engine file, each as `path:line name`. */
export function outsideUses(path: string, source: string): string[] {
  const found: string[] = [];
  const note = (name: string, at: number): void => void found.push(`${path}:${source.slice(0, at).split('\n').length} ${name}`);
  const free = (node: ESTree.Expression | ESTree.Super): void => {
    if (node.type === 'Identifier' && OUTSIDE.has(node.name)) note(node.name, node.start);
  };
  new Visitor({
    CallExpression: ({ callee }) => free(callee),
    NewExpression: ({ callee }) => free(callee),
    MemberExpression: (node) => {
      const { object, property } = node;
      // Reading a moment out of a text asks no clock.
      if (object.type === 'Identifier' && object.name === 'Date' && property.type === 'Identifier' && property.name === 'parse') return;
      free(object);
      if (object.type === 'Identifier' && object.name === 'Math' && property.type === 'Identifier' && property.name === 'random')
        note('Math.random', node.start);
      if (object.type === 'Identifier' && object.name === 'globalThis') note('globalThis', node.start);
    },
  }).visit(parseSync(path, source).program);
  return found;
}
