import { failure, type Result, success } from '../../../engine/result.ts';
import { canonicalHash, NO_LINE_BEFORE, type WalkLine, walkLineSchema } from '../../../engine/walk/index.ts';
import type { LineFault } from '../../sync/wire/walk-wire.ts';

/** No walk of weeks comes near it; it keeps a made-up number from costing anything. */
export const MOST_SEQ = 100_000;

export type LineRefusal = { readonly fault: LineFault; readonly detail: string };

const refused = (fault: LineFault, detail: string): { readonly ok: false; readonly problem: LineRefusal } =>
  failure({ fault, detail: detail.slice(0, 200) });

/** Control characters and halves of a character: a name with these cannot be kept by every database as it is. */
const NO_TEXT = /[\p{Cc}\p{Cs}]/u;

/** Reads one line as the engine's replay does, by itself: its shape, and that its hash is that of what it says. */
export function readLine(input: unknown): Result<WalkLine, LineRefusal> {
  const parsed = walkLineSchema.safeParse(input);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return refused('not-a-line', `${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}`.trim());
  }
  const line = parsed.data;
  if (NO_TEXT.test(line.walk)) return refused('not-a-line', 'walk: only text');
  if (line.seq >= MOST_SEQ) return refused('too-far', `seq: below ${MOST_SEQ}`);
  if (Number.isNaN(Date.parse(line.time))) return refused('not-a-line', 'time');
  const { hash, ...unsealed } = line;
  let again: string;
  try {
    again = canonicalHash(unsealed);
  } catch {
    // RFC 8785 has no form for half a character (a lone surrogate).
    return refused('not-a-line', 'text that is not Unicode');
  }
  if (again !== hash) return refused('line-changed', `seq ${line.seq}`);
  if ((line.seq === 0) !== (line.before === NO_LINE_BEFORE)) return refused('chain-broken', `seq ${line.seq}: before`);
  return success(line);
}
