import { createInterface } from 'node:readline/promises';
import { answersOf, refusalWords, type Stamp, takeEvent, viewOf, type Walk, type WalkLine } from '../walk/index.ts';
import { wrapped } from './prose-text.ts';
import { stepText } from './step-text.ts';

type Terminal = {
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WritableStream;
  readonly stamp: () => Stamp;
  readonly write: (line: WalkLine) => void;
};

const HELP = `At a reading type what the meter shows (24.1, 1.2k, OL). Elsewhere type the number or the text of an answer.
Enter reads a caution or goes on. Also: cannot [why], back N, put back N, set SETTING STATE, fact NAME VALUE, note TEXT, path, leave.`;

/** One line typed by the tech, as an event; undefined where it is a question about the walk itself. */
export function eventOf(walk: Walk, typed: string): unknown {
  const view = viewOf(walk);
  const text = typed.trim();
  const [word = '', ...rest] = text.split(/\s+/);
  const tail = rest.join(' ');
  if (word === 'cannot') return { type: 'could-not', ...(tail !== '' && { why: tail }) };
  if (word === 'back' && /^\d+$/.test(tail)) return { type: 'stepped-back', to: Number(tail) - 1 };
  if (word === 'put' && rest[0] === 'back') return { type: 'put-back', item: view.putBack[Number(rest[1]) - 1]?.key ?? tail };
  if (word === 'set' && rest.length === 2) return { type: 'did', does: `turn ${tail}` };
  if (word === 'fact' && rest.length >= 2) return { type: 'told', fact: rest[0], typed: rest.slice(1).join(' ') };
  if (word === 'note' && tail !== '') return { type: 'noted', text: tail };
  const unread = view.cautions.findIndex(({ mustRead, read }) => mustRead && !read);
  switch (view.phase) {
    case 'opening':
    case 'cautions':
      return unread >= 0 ? { type: 'caution-read', caution: unread } : { type: 'went-on' };
    case 'verdict':
      return text === '' ? { type: 'went-on', ...(view.verdict?.tooClose && { tooClose: true }) } : answer(walk, text);
    case 'finding':
      return { type: 'found' };
    case 'handoff':
      return { type: 'went-on' };
    case 'repair':
      return { type: 'repaired', done: !/^n/i.test(text), ...(tail !== '' && { note: tail }) };
    case 'put-back':
      return { type: 'put-back', item: view.putBack[Number(text) - 1]?.key ?? text };
    case 'recheck':
      return view.step?.kind === 'reading' ? { type: 'rechecked', typed: text } : { type: 'rechecked', saw: labelled(walk, text) };
    case 'closing':
      return { type: 'closed' };
    default:
      return answer(walk, text);
  }
}

function labelled(walk: Walk, text: string): string {
  const answers = answersOf(walk);
  return (
    (/^\d+$/.test(text) ? answers[Number(text) - 1]?.on : undefined) ?? answers.find((a) => a.on.toLowerCase() === text.toLowerCase())?.on ?? text
  );
}

function answer(walk: Walk, text: string): unknown {
  const { step } = viewOf(walk);
  switch (step?.kind) {
    case 'reading':
      return { type: 'read', typed: text };
    case 'act':
      return { type: 'did' };
    case 'ask':
      return { type: 'told', fact: step.fact, typed: answersOf(walk).some((a) => a.on === 'known') ? text : labelled(walk, text) };
    default:
      return { type: 'looked', saw: labelled(walk, text) };
  }
}

const pathText = (walk: Walk): string =>
  viewOf(walk)
    .path.map((entry, i) => `${i + 1}. ${entry.title}: ${entry.typed ?? ''} ${entry.on ?? '…'}`.replace(/\s+/g, ' '))
    .join('\n');

/** Walks in a terminal until the walk is closed or the tech leaves; what was entered is in the log by then. */
export async function terminalWalk(start: Walk, terminal: Terminal): Promise<Walk> {
  const lines = createInterface({ input: terminal.input, output: terminal.output, terminal: false });
  const say = (text: string): void => void terminal.output.write(`${wrapped(text, 100)}\n`);
  let walk = start;
  const take = (event: unknown): void => {
    const taken = takeEvent(walk, event, terminal.stamp());
    if (!taken.ok) {
      const { message, fix } = refusalWords(taken.problem);
      say(`✗ ${message}\n  ${fix}`);
      return;
    }
    terminal.write(taken.value.line);
    walk = taken.value.walk;
    say(`\n${stepText(walk)}`);
  };
  say(HELP);
  take({ type: 'opened' });
  if (viewOf(walk).phase !== 'closed') terminal.output.write('> ');
  for await (const typed of lines) {
    const word = typed.trim();
    if (word === 'leave') break;
    if (word === 'help' || word === '?') say(HELP);
    else if (word === 'path') say(pathText(walk));
    else take(eventOf(walk, typed));
    if (viewOf(walk).phase === 'closed') break;
    terminal.output.write('> ');
  }
  lines.close();
  return walk;
}
