/** What a part can become under a fault, beside a value of its own and a state of its own. */
export const FAULT_MODES = [
  'open',
  'shorted',
  'absent',
  'stuck-open',
  'stuck-closed',
  'blown',
  'grounded',
  'swapped',
  'primary-open',
  'secondary-open',
] as const;

export type FaultMode = (typeof FAULT_MODES)[number];

/** One fault of one part, read from its `becomes` text. */
export type Becoming =
  | { readonly as: 'mode'; readonly mode: FaultMode }
  /** A short from the part's first end to another node. */
  | { readonly as: 'link'; readonly node: string; readonly offset: number }
  /** An end of the part landed on another node. */
  | { readonly as: 'move'; readonly from: string; readonly to: string; readonly offset: number }
  /** A formula: the part's own main value changed. */
  | { readonly as: 'value'; readonly text: string }
  | { readonly as: 'state'; readonly state: string };

const LINK = /^to\s+(\S+)$/;
const MOVE = /^moved\s+from\s+(\S+)\s+to\s+(\S+)$/;
const WORD = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Reads `open`, `to C`, `moved from K1 to C`, `80 ohm`, `shut`. Whether the part can become it is not asked here. */
export function readBecoming(text: string): Becoming {
  const plain = text.trim();
  const mode = FAULT_MODES.find((name) => name === plain);
  if (mode) return { as: 'mode', mode };
  const link = LINK.exec(plain);
  if (link?.[1]) return { as: 'link', node: link[1], offset: plain.length - link[1].length };
  const move = MOVE.exec(plain);
  if (move?.[1] && move[2]) return { as: 'move', from: move[1], to: move[2], offset: plain.length - move[2].length };
  if (WORD.test(plain) && /[a-z]/.test(plain)) return { as: 'state', state: plain };
  return { as: 'value', text: plain };
}
