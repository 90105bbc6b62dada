import { randomUUID } from 'node:crypto';
import { Command } from 'commander';
import { beginWalk, type Walk, type WalkLine, walkableEdition } from '../walk/index.ts';
import { type BenchOptions, runBench } from './bench-command.ts';
import { checkFiles, problemLines } from './check.ts';
import { draftFile, draftText } from './draft.ts';
import { EXPORT_FORMATS, exportFiles, isExportFormat, writeExport } from './export.ts';
import { keepEdition, LogFile, stampNow } from './log-file.ts';
import { nextFile, nextText } from './next.ts';
import { openEdition } from './open-edition.ts';
import { proofText, proveFile } from './prove.ts';
import { readTextFile } from './read-text-file.ts';
import { replayFile } from './replay.ts';
import { reviewFiles } from './review.ts';
import { crewText, reviewText } from './review-text.ts';
import { scriptedWalk } from './scripted-walk.ts';
import { sequenceFile, sequenceText } from './sequence.ts';
import { terminalWalk } from './terminal-walk.ts';
import { callTrade, tradeListings, tradeListText, tradeText } from './trade.ts';
import { walkReport } from './walk-report.ts';

const print = (text: string): void => void process.stdout.write(`${text}\n`);
const printJson = (value: unknown): void => print(JSON.stringify(value, null, 2));
const complain = (text: string): void => void process.stderr.write(`${text}\n`);

/** Says what went wrong and lets the process end with a failure, after its output is written. */
function fail(message: string, json: boolean): void {
  process.exitCode = 1;
  if (json) printJson({ ok: false, message });
  else complain(message);
}

// A reader that stops early, such as head(1), is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 1));

const program = new Command('ohmward').description(
  'Diagnostic trees for low-voltage control circuits: check them, walk them, replay what was walked.',
);

program
  .command('check')
  .description('check tree (.tree.mdx) and bench (.bench.yaml) files; exits 1 on errors')
  .argument('<file...>', 'the files')
  .option('--json', 'print {ok, problems:[{severity,code,message,file,line,column,step,fix}]}')
  .action((files: string[], { json }: { json?: boolean }) => {
    const report = checkFiles(files);
    if (!report.ok) process.exitCode = 1;
    if (json) printJson(report);
    else
      print(
        report.problems.length === 0
          ? `${files.length === 1 ? 'No problems' : `No problems in ${files.length} files`}.`
          : problemLines(report.problems),
      );
  });

type WalkOptions = { script?: string; log?: string; json?: boolean; brisk?: boolean; by?: string };

function openLog(file: string | undefined): LogFile | undefined {
  return file === undefined ? undefined : new LogFile(file);
}

async function walkFile(file: string, options: WalkOptions): Promise<void> {
  const json = options.json ?? false;
  const edition = openEdition(file);
  if (!edition.ok) return fail(edition.problem, json);
  // Before the log is begun, so that a script that is not there leaves no empty log behind.
  const script = options.script === undefined ? undefined : readTextFile(options.script, 'script');
  if (script && !script.ok) return fail(script.problem, json);
  const begun = beginWalk(walkableEdition(edition.value), randomUUID());
  let log: LogFile | undefined;
  try {
    log = openLog(options.log);
  } catch (error) {
    return fail(
      `The log ${options.log} cannot be begun (${error instanceof Error ? error.message : String(error)}). Name a new file; a log is never written over.`,
      json,
    );
  }
  if (options.log !== undefined) keepEdition(options.log, edition.value);
  const write = (line: WalkLine): void => log?.write(line);
  let walk: Walk;
  if (!script) {
    walk = await terminalWalk(begun, { input: process.stdin, output: json ? process.stderr : process.stdout, stamp: stampNow, write });
  } else {
    const done = scriptedWalk(begun, script.value, options.brisk ?? false, { stamp: stampNow, write });
    walk = done.ok ? done.value : done.problem.walk;
    if (!done.ok) {
      process.exitCode = 1;
      const { line, event, message, fix } = done.problem.problem;
      if (json) printJson({ ...walkReport(walk), refused: { line, event, message, fix } });
      else complain(`${options.script}:${line} ${JSON.stringify(event)}\n    ${message}\n    ${fix}`);
      log?.close();
      return;
    }
  }
  log?.close();
  if (json) printJson({ ...walkReport(walk), refused: null });
  else if (options.script !== undefined) print(summary(walk));
}

function summary(walk: Walk): string {
  const report = walkReport(walk);
  return [
    `${report.state}${report.step === null ? '' : ` at ${report.step}`}, ${report.events} events`,
    ...(report.finding ? [`finding: ${report.finding.title}`] : []),
    ...(report.putBack.length > 0 ? [`to put back: ${report.putBack.join('; ')}`] : []),
    ...(report.outcome ? [`outcome: ${report.outcome}`] : []),
  ].join('\n');
}

program
  .command('walk')
  .description('walk a tree or an edition: in the terminal, or from a script of events')
  .argument('<file>', 'a .tree.mdx or an edition file')
  .option('--script <file>', 'events to walk, one JSON object a line')
  .option('--brisk', 'with --script: read cautions and go on from verdicts without a line of their own')
  .option('--log <file>', 'write the log here, a new file; the edition is kept beside it')
  .option('--json', 'print where the walk stands at the end')
  .action(walkFile);

program
  .command('replay')
  .description("replay a walk's log: where it stood, and the first line that cannot be trusted")
  .argument('<log>', 'a log written by walk, or saved from the field app')
  .option('--edition <file>', 'the edition or tree it was walked on, where it is neither beside the log nor in the trees')
  .option('--trees <folder>', 'where to look for the edition', 'trees')
  .option('--json', 'print {step, state, finding, putBack, brokenAt, …}')
  .action(async (log: string, options: { edition?: string; trees: string; json?: boolean }) => {
    const report = await replayFile(log, options);
    if (!report.ok) return fail(report.problem, options.json ?? false);
    if (report.value.brokenAt !== null) process.exitCode = 1;
    if (options.json) return printJson(report.value);
    const { state, step, finding, putBack, outcome, events, problems } = report.value;
    print(
      `${state}${step === null ? '' : ` at ${step}`} after ${events} events${finding ? `\nfinding: ${finding.title}` : ''}${putBack.length > 0 ? `\nto put back: ${putBack.join('; ')}` : ''}${outcome ? `\noutcome: ${outcome}` : ''}`,
    );
    for (const { message, fix } of problems) complain(`${message}\n    ${fix}`);
  });

program
  .command('review')
  .description('review logs of walks: one with every measure and the lines that made it; several as a crew, with intervals')
  .argument('<log...>', 'logs written by walk, or saved from the field app')
  .option('--confirmed <what>', 'of one log: held, came-back, or the fault that it was')
  .option('--edition <file>', 'the edition or tree that they were walked on, where it is neither beside the log nor in the trees')
  .option('--trees <folder>', 'where to look for editions', 'trees')
  .option('--json', 'print {reviews, left, crew, pictures}')
  .action(async (logs: string[], { json, ...options }: { confirmed?: string; edition?: string; trees: string; json?: boolean }) => {
    const report = await reviewFiles(logs, options);
    if (!report.ok) return fail(report.problem, json ?? false);
    const { reviews, left, crew } = report.value;
    if (reviews.some(({ review }) => review.problems.length > 0)) process.exitCode = 1;
    if (json) return printJson(report.value);
    const [only] = reviews;
    if (only && !crew) return print(reviewText(only.review));
    if (crew) print(crewText(crew, { drills: reviews.filter(({ review }) => review.drill).length, told: left }));
    for (const { file, review } of reviews)
      if (review.problems.length > 0)
        complain(`${file} cannot be trusted from its line ${(review.problems[0]?.line ?? 0) + 1} on; what comes before is counted.`);
  });

const each = (value: string, before: readonly string[] = []): readonly string[] => [...before, value];

program
  .command('bench')
  .description('solve a bench and read it with a simulated meter')
  .argument('<file>', 'a .bench.yaml file')
  .option('--set <setting=state>', 'turn a setting; may be repeated', each)
  .option('--fact <name=value>', 'a fact of the house; may be repeated', each)
  .option('--fault <id>', 'a fault of the bench; may be repeated', each)
  .option('--jumper <A,B>', 'a jumper between two points; may be repeated', each)
  .option('--lift <lead>', 'a lead lifted; may be repeated', each)
  .option('--measure <reading>', 'what to read: ac-voltage:R,C (red lead first) or dc-current:PLACE')
  .option('--low', 'read volts through the low-impedance input')
  .option('--json', 'print {reading, nodes, signs, settled}')
  .action((file: string, options: BenchOptions & { json?: boolean }) => {
    const report = runBench(file, options);
    if (!report.ok) return fail(report.problem, options.json ?? false);
    if (!report.value.settled) process.exitCode = 1;
    if (options.json) return printJson(report.value);
    const { reading, signs, nodes, message } = report.value;
    if (message !== undefined) return complain(message);
    if (reading) print(reading.shown);
    for (const [node, { re, im }] of Object.entries(nodes)) print(`${node.padEnd(12)} ${Math.hypot(re, im).toPrecision(5)} V to ground`);
    for (const [sign, seen] of Object.entries(signs)) print(`${seen ? '●' : '○'} ${sign}`);
  });

program
  .command('prove')
  .description('prove a tree on its benches: every path, every fault, every corner of the facts and the meter; exits 1 on errors')
  .argument('<file>', 'a .tree.mdx file')
  .option('--json', 'print {ok, problems, faults, rates, expectedMinutes, bestMinutes, bound, healthy}')
  .action((file: string, { json }: { json?: boolean }) => {
    const report = proveFile(file);
    if (!report.ok) return fail(report.problem, json ?? false);
    if (!report.value.ok) process.exitCode = 1;
    if (json) return printJson(report.value);
    if (report.value.problems.length > 0) print(problemLines(report.value.problems));
    print(proofText(report.value));
  });

program
  .command('next')
  .description('what a walk leaves possible, and which reading to take next')
  .argument('<file>', 'a .tree.mdx or an edition file')
  .option('--log <file>', "the walk's log; without one the walk has not begun")
  .option('--steps', 'only readings and looks that the tree has steps for')
  .option('--json', 'print {at, suspects, nothingWrong, unknown, excluded, contradictions, next, method, finding}')
  .action((file: string, { json, steps, log }: { log?: string; steps?: boolean; json?: boolean }) => {
    const report = nextFile(file, { ...(log !== undefined && { log }), stepsOnly: steps ?? false });
    if (!report.ok) return fail(report.problem, json ?? false);
    if (json) printJson(report.value);
    else print(nextText(report.value));
  });

program
  .command('draft')
  .description('draft a tree from a bench: the order that takes the fewest expected minutes, ready to be checked and proved')
  .argument('<bench>', 'a .bench.yaml file')
  .option('--out <file>', 'the tree to write, a new file; beside the bench’s folder where not named')
  .option('--json', 'print {file, steps, minutes, bound, method, minutesFrom, ambiguous, notes}')
  .action((file: string, { json, out }: { out?: string; json?: boolean }) => {
    const report = draftFile(file, out);
    if (!report.ok) return fail(report.problem, json ?? false);
    if (json) printJson(report.value);
    else print(draftText(report.value));
  });

program
  .command('sequence')
  .description('put the tests of a matrix in the order that takes the fewest expected minutes')
  .argument('<matrix>', 'a .csv file: states, priors, and what each test costs and shows')
  .option('--from <set-up>', 'how the circuit is found, where the matrix names set-ups')
  .option('--most <sets>', 'sets that the exact search may open before the rollout is given instead')
  .option('--json', 'print {optimum, method, firstTests, informationGain, rollout, bound, visited, most}')
  .action((file: string, { json, ...options }: { from?: string; most?: string; json?: boolean }) => {
    const report = sequenceFile(file, options);
    if (!report.ok) return fail(report.problem, json ?? false);
    if (json) printJson(report.value);
    else print(sequenceText(report.value));
  });

program
  .command('trade')
  .description('compute with a function that trees and benches can call, such as: trade dew-point "70 °F" "35 %RH"; lists them all without one')
  .argument('[function]', 'the function')
  .argument('[arguments...]', 'what it takes, each with its unit')
  .option('--json', 'print {function, arguments, value, unit, text, source}')
  // “-10 °F” is a temperature and no option.
  .allowUnknownOption()
  .action((name: string | undefined, given: string[], { json }: { json?: boolean }) => {
    if (name === undefined) return json ? printJson(tradeListings()) : print(tradeListText());
    const report = callTrade(name, given);
    if (!report.ok) {
      process.exitCode = 1;
      const { code, argument, message, fix } = report.problem;
      return json ? printJson({ ok: false, code, argument, message, fix }) : complain(`${message}\n    ${fix}`);
    }
    if (json) printJson(report.value);
    else print(tradeText(report.value));
  });

program
  .command('export')
  .description('give out a tree as a state chart, or walks as an event log, statements or a table, in open formats')
  .argument('<file...>', 'for scxml a .tree.mdx or an edition file, for the others logs')
  .requiredOption('--as <format>', EXPORT_FORMATS.join(', '))
  .option('--out <file>', 'the file to write, a new one; to the terminal where not named')
  .option('--over', 'with --out: write over a file that is there')
  .option('--walks', 'with csv: a row a walk instead of a row an event')
  .option('--home <address>', "with xapi: the address of the system that the techs' names are of", 'urn:ohmward:crew')
  .option('--edition <file>', 'the edition or tree of the logs, where it is neither beside them nor in the trees')
  .option('--trees <folder>', 'where to look for the edition', 'trees')
  .action(
    async (
      files: string[],
      options: { as: string; out?: string; over?: boolean; walks?: boolean; home: string; edition?: string; trees: string },
    ) => {
      if (!isExportFormat(options.as)) return fail(`${options.as} is no format. Name one of ${EXPORT_FORMATS.join(', ')}.`, false);
      const exported = await exportFiles(options.as, files, options);
      if (!exported.ok) return fail(exported.problem, false);
      for (const warning of exported.value.warnings) complain(warning);
      if (exported.value.warnings.length > 0) process.exitCode = 1;
      if (options.out === undefined) return void process.stdout.write(exported.value.text);
      const wrong = writeExport(options.out, exported.value.text, options.over ?? false);
      if (wrong !== undefined) fail(wrong, false);
      else print(`${options.out}: ${files.length === 1 ? files[0] : `${files.length} files`} as ${options.as}`);
    },
  );

await program.parseAsync();
