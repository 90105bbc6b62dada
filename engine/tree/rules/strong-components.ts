/**
 * The strongly connected components of a directed graph, each with its nodes in ascending order (Tarjan 1972, with an explicit
 * stack: a tree may be longer than the call stack is deep).
 */
export function strongComponents(next: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const index: (number | undefined)[] = [];
  const low: number[] = [];
  const onStack = new Set<number>();
  const stack: number[] = [];
  const components: number[][] = [];
  let counter = 0;
  const open = (node: number): { node: number; edge: number } => {
    index[node] = counter;
    low[node] = counter;
    counter += 1;
    stack.push(node);
    onStack.add(node);
    return { node, edge: 0 };
  };
  const lower = (node: number, to: number): void => {
    low[node] = Math.min(low[node] ?? to, to);
  };
  for (let root = 0; root < next.length; root += 1) {
    if (index[root] !== undefined) continue;
    const frames = [open(root)];
    for (let frame = frames.at(-1); frame; frame = frames.at(-1)) {
      const { node } = frame;
      const to = next[node]?.[frame.edge];
      frame.edge += 1;
      if (to !== undefined) {
        const seen = index[to];
        if (seen === undefined) frames.push(open(to));
        else if (onStack.has(to)) lower(node, seen);
        continue;
      }
      frames.pop();
      const above = frames.at(-1);
      if (above) lower(above.node, low[node] ?? 0);
      if (low[node] !== index[node]) continue;
      const component: number[] = [];
      for (let member = stack.pop(); member !== undefined; member = stack.pop()) {
        onStack.delete(member);
        component.push(member);
        if (member === node) break;
      }
      components.push(component.sort((a, b) => a - b));
    }
  }
  return components;
}
