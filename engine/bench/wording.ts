import type { ComputeProblem } from '../formula/index.ts';
import type { BenchTrouble } from './bench-problem.ts';
import { nearest } from './nearest.ts';

export type Words = { readonly message: string; readonly fix: string };

const quoted = (names: readonly string[]): string => names.map((name) => `“${name}”`).join(', ');

/** Names between quotation marks; a long list is cut short. */
export function listed(names: readonly string[], most = 12): string {
  if (names.length === 0) return 'there are none';
  return names.length <= most ? quoted(names) : `${quoted(names.slice(0, most))} and ${names.length - most} more`;
}

/** The known name that was most likely meant, or what is known. */
export function didYouMean(name: string, known: readonly string[], otherwise = `Known: ${listed(known)}.`): string {
  const near = nearest(name, known);
  return near === undefined ? otherwise : `Did you mean “${near}”?`;
}

const figure = (value: number): string => String(Number(value.toPrecision(4)));

/** Why a value has no answer, in words without a full stop. */
export function computeWords(why: ComputeProblem): string {
  switch (why.code) {
    case 'out-of-range':
      return `the ${why.what} is ${figure(why.value)} ${why.unit}, and must be from ${figure(why.from)} to ${figure(why.to)} ${why.unit}`;
    case 'no-answer':
      return `it comes to ${why.what}`;
    case 'value-missing':
      return `“${why.what}” has no value`;
  }
}

const forFacts = (facts: string | undefined): string => (facts ? ` with ${facts}` : '');
const withSettings = (settings: string): string => (settings ? ` with ${settings}` : '');

/** What is wrong, and the way out. The one place for a bench's words. */
export function benchWords(trouble: BenchTrouble): Words {
  switch (trouble.code) {
    case 'not-readable':
      return { message: `This is not a readable bench: ${trouble.detail}.`, fix: 'Check indents, colons and quotes around this place.' };
    case 'too-big':
      return {
        message: `${trouble.got} ${trouble.what} are more than a bench can have.`,
        fix: `Keep to ${trouble.most}; split the circuit into several benches.`,
      };
    case 'duplicate-name':
      return { message: `“${trouble.name}” is used twice: ${trouble.as.join(' and ')}.`, fix: 'Give each its own name.' };
    case 'unknown-key':
      return {
        message: `“${trouble.key}” is not used here.`,
        fix: didYouMean(trouble.key, trouble.known, `Used here: ${listed(trouble.known, 20)}.`),
      };
    case 'missing-key':
      return { message: `“${trouble.key}” is missing.`, fix: `Add “${trouble.key}: …”.` };
    case 'unknown-kind':
      return { message: `“${trouble.got}” is no kind of part.`, fix: didYouMean(trouble.got, trouble.known, `Kinds: ${listed(trouble.known, 30)}.`) };
    case 'bad-value':
      return { message: `This must be ${trouble.expected}.`, fix: `Write ${trouble.expected}.` };
    case 'cannot-read':
      return { message: `Found ${trouble.found} where ${trouble.expected} should stand.`, fix: `Write ${trouble.expected} here.` };
    case 'unknown-unit':
      return { message: `“${trouble.found}” is no unit.`, fix: 'Use a unit such as V, ohm, kohm, A, uA, VA, ft, pF/ft, AWG, °F or %.' };
    case 'unit-mismatch':
      return { message: `This is ${trouble.got}; ${trouble.wants} belongs here.`, fix: `Give ${trouble.wants} with its unit.` };
    case 'unknown-name':
      return { message: `There is no ${trouble.what} “${trouble.name}”.`, fix: didYouMean(trouble.name, trouble.known) };
    case 'unknown-state':
      return {
        message: `“${trouble.name}” is never “${trouble.state}”.`,
        fix: didYouMean(trouble.state, trouble.known, `It can be ${listed(trouble.known)}.`),
      };
    case 'unknown-function':
      return { message: `There is no function “${trouble.name}”.`, fix: didYouMean(trouble.name, trouble.known) };
    case 'wrong-arguments':
      return { message: `“${trouble.name}” does not take these.`, fix: `Call it as ${trouble.expected}.` };
    case 'unknown-part':
      return { message: `There is no part “${trouble.name}”.`, fix: didYouMean(trouble.name, trouble.known) };
    case 'unknown-terminal':
      return { message: `No part stands on a node “${trouble.name}”.`, fix: didYouMean(trouble.name, trouble.known) };
    case 'missing-terminal':
      return {
        message: `Terminal “${trouble.terminal}” is listed, and no part stands on it.`,
        fix: trouble.near === undefined ? 'Put a part on it, or take it off the list.' : `Did a part mean it by “${trouble.near}”?`,
      };
    case 'lone-node':
      return {
        message: `Only one end stands on “${trouble.node}”, and it is no terminal, so no current can pass and no lead can touch it.`,
        fix: trouble.near === undefined ? 'Join another part to it, or list it as a terminal.' : `Did you mean “${trouble.near}”?`,
      };
    case 'part-on-one-node':
      return { message: `Both ends of “${trouble.part}” stand on “${trouble.node}”.`, fix: 'Put its ends on two different nodes.' };
    case 'lead-not-on-part':
      return {
        message: `Lead “${trouble.lead}” is on “${trouble.on}”, where this part has no end.`,
        fix: `Name one of its own ends: ${listed(trouble.ends)}.`,
      };
    case 'impossible-fault':
      return { message: `${trouble.about} cannot become “${trouble.becomes}”.`, fix: `It can become ${trouble.can.join(', ')}.` };
    case 'nothing-on-ground':
      return {
        message: `Fault “${trouble.fault}” touches ground, and nothing else in this bench is bonded to ground, so it would change nothing.`,
        fix: 'Join the circuit to “ground” where it is bonded, or write “becomes: to NODE” with the conductor that it touches.',
      };
    case 'absurd-value':
      return {
        message: `${trouble.shown}${forFacts(trouble.facts)} is not possible here.`,
        fix: `Give a value from ${trouble.least} to ${trouble.most}.`,
      };
    case 'not-computable':
      return {
        message: `This cannot be worked out${forFacts(trouble.facts)}: ${computeWords(trouble.why)}.`,
        fix: 'Change the value, or the range of the fact behind it.',
      };
    case 'fact-range':
      return {
        message: `Fact “${trouble.fact}” runs from ${trouble.from} to ${trouble.to}, and its usual value ${trouble.usual} is not inside.`,
        fix: 'Put “usual” between “from” and “to”.',
      };
    case 'not-used':
      return {
        message: `Nothing in the circuit depends on ${trouble.what} “${trouble.name}”.`,
        fix: 'Use it in a condition or a value, or remove it.',
      };
    case 'sign-loop':
      return {
        message: `These signs are defined by each other: ${listed(trouble.signs)}.`,
        fix: 'Define one of them by volts, amps, settings or part states.',
      };
    case 'floating-terminal':
      return {
        message: `Terminal “${trouble.terminal}” is joined to no source, whatever is switched on: ${listed(trouble.island)} stand apart.`,
        fix: 'Join it to the rest with a part, or remove it.',
      };
    case 'source-shorted':
      return {
        message: `“${trouble.source}” is shorted by ${listed(trouble.by)}${withSettings(trouble.settings)}.`,
        fix: 'Put a load between its two sides, or move one end.',
      };
    case 'fuse-blows':
      return {
        message: `“${trouble.fuse}” blows with nothing wrong${withSettings(trouble.settings)}.`,
        fix: 'Check its rating and the loads behind it.',
      };
    case 'chatter':
      return {
        message: `This never settles${withSettings(trouble.settings)}${trouble.fault ? ` under fault “${trouble.fault}”` : ''}: ${listed(trouble.parts)} keep switching each other.`,
        fix: 'Check their conditions, and the volts at which they pull in and drop out.',
      };
    case 'no-solution':
      return {
        message: `The circuit has no answer at “${trouble.node}”${withSettings(trouble.settings)}: ${trouble.reason}.`,
        fix: 'Look for parts there without resistance, or with values far apart.',
      };
  }
}
