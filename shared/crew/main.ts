import { resolve } from 'node:path';
import { Command, InvalidArgumentError, Option } from 'commander';
import { type RunningServer, SHIPPED_TREES, startServer } from './serve.ts';

type Options = { port: number; host: string; trees: string };

const USUAL_PORT = 4460;
const TRIES = 20;

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535) throw new InvalidArgumentError('A port is a whole number from 0 to 65535.');
  return port;
}

const program = new Command('npm start --')
  .description('Serves the field app and the desk from this machine.')
  .addOption(new Option('-p, --port <number>', 'port; the next free one where it is taken').env('PORT').argParser(readPort).default(USUAL_PORT))
  .addOption(new Option('--host <address>', 'address to listen on; 0.0.0.0 for every network').env('HOST').default('127.0.0.1'))
  .option('--trees <folder>', 'folder of tree files', SHIPPED_TREES)
  .parse();

const hasCode = (error: unknown, code: string): boolean => error instanceof Error && 'code' in error && error.code === code;

/** On the port asked for, or the first free one after it. */
async function startOnFreePort({ port, host, trees }: Options): Promise<RunningServer> {
  for (let tried = 0; ; tried += 1) {
    try {
      return await startServer({ port: port + tried, host, trees: resolve(trees) });
    } catch (error) {
      if (!hasCode(error, 'EADDRINUSE') || tried >= TRIES || port === 0 || port + tried >= 65535) throw error;
    }
  }
}

async function main(): Promise<void> {
  const options = program.opts<Options>();
  const server = await startOnFreePort(options);
  const { entries, problems } = await server.shelf.current();
  console.log(`\n  Field, to walk a tree:    ${server.url}/field/`);
  console.log(`  Desk, to read the trees:  ${server.url}/desk/\n`);
  console.log(`  ${entries.length} ${entries.length === 1 ? 'tree is' : 'trees are'} ready to walk. Stop with Ctrl+C.`);
  const errors = problems.filter((problem) => problem.severity === 'error');
  for (const { file, line, column, message, fix } of errors) console.log(`  ${file}:${line}:${column} ${message} ${fix}`);
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void server.close().then(() => process.exit(0)));
}

main().catch((error: unknown) => {
  console.error(`The service could not start: ${error instanceof Error ? error.message : String(error)}`);
  process.exitCode = 1;
});
