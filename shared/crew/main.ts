import { resolve } from 'node:path';
import { Command, InvalidArgumentError, Option } from 'commander';
import { joinLink } from './routes/crew-routes.ts';
import { type RunningServer, type ServiceOptions, SHIPPED_TREES, startServer } from './serve.ts';
import { ownerCode } from './store/invitation-store.ts';
import { type HubStore, openStore } from './store/open-store.ts';
import { hasOwner } from './store/people-store.ts';
import { servedPlace, USUAL_DATA, whyNoSqlite } from './store/store-place.ts';
import type { LogLevel } from './watch/hub-log.ts';

type Options = { port: number; host: string; trees: string; data: string; alone?: boolean; address?: string; trustProxy: string; log: LogLevel };

const USUAL_PORT = 4460;
const TRIES = 20;

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535) throw new InvalidArgumentError('A port is a whole number from 0 to 65535.');
  return port;
}

function readAddress(text: string): string {
  const url = URL.canParse(text) ? new URL(text) : undefined;
  if (!url || !/^https?:$/.test(url.protocol) || url.pathname !== '/' || url.search !== '' || url.hash !== '')
    throw new InvalidArgumentError('An address is like https://hub.example, with nothing after it.');
  return url.origin;
}

const program = new Command('npm start --')
  .description('Serves the field app, the desk and the crew’s hub from this machine.')
  .addOption(new Option('-p, --port <number>', 'port; the next free one where it is taken').env('PORT').argParser(readPort).default(USUAL_PORT))
  .addOption(new Option('--host <address>', 'address to listen on; 0.0.0.0 for every network').env('HOST').default('127.0.0.1'))
  .option('--trees <folder>', 'folder of tree files', SHIPPED_TREES)
  .addOption(new Option('--data <folder>', 'folder of the hub’s data; DATABASE_URL puts it into PostgreSQL instead').env('DATA').default(USUAL_DATA))
  .option('--alone', 'runs without the hub: the service can only be read')
  .addOption(new Option('--address <url>', 'the hub’s address as the crew opens it, for invitations').env('ADDRESS').argParser(readAddress))
  .addOption(
    new Option('--trust-proxy <addresses>', 'proxies whose word on who asks is taken, divided by commas').env('TRUST_PROXY').default('loopback'),
  )
  .addOption(
    new Option('--log <level>', 'what is logged, as JSON lines').env('LOG').choices(['silent', 'error', 'warn', 'info', 'debug']).default('error'),
  )
  .parse();

const hasCode = (error: unknown, code: string): boolean => error instanceof Error && 'code' in error && error.code === code;

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** On the port asked for, or the first free one after it. */
async function startOnFreePort({ port, host }: Options, service: ServiceOptions): Promise<RunningServer> {
  for (let tried = 0; ; tried += 1) {
    try {
      return await startServer({ ...service, port: port + tried, host });
    } catch (error) {
      if (!hasCode(error, 'EADDRINUSE') || tried >= TRIES || port === 0 || port + tried >= 65535) throw error;
    }
  }
}

/** The hub's data; undefined where the service is to run without a hub, or cannot run one on this machine, which is said. */
async function openData(options: Options): Promise<HubStore | undefined> {
  const place = servedPlace(options, process.env);
  if (!place) return undefined;
  const missing = 'sqlite' in place ? whyNoSqlite() : undefined;
  if (missing === undefined) return await openStore(place);
  console.error(
    `\n  The hub does not run: its database, better-sqlite3, cannot be loaded (${missing}). Everything else works; \`npm ci\` may put it right.`,
  );
  return undefined;
}

async function main(): Promise<void> {
  const options = program.opts<Options>();
  const store = await openData(options);
  const { METRICS_KEY: metricsKey } = process.env;
  const server = await startOnFreePort(options, {
    trees: resolve(options.trees),
    trustProxy: options.trustProxy,
    log: { level: options.log },
    ...(store && { hub: { store, address: options.address, metricsKey, processMetrics: true } }),
  });
  const { entries, problems } = await server.shelf.current();
  console.log(`\n  Field, to walk a tree:    ${server.url}/field/`);
  console.log(`  Desk, to read the trees:  ${server.url}/desk/\n`);
  console.log(`  ${entries.length} ${entries.length === 1 ? 'tree is' : 'trees are'} ready to walk. Stop with Ctrl+C.`);
  const errors = problems.filter((problem) => problem.severity === 'error');
  for (const { file, line, column, message, fix } of errors) console.log(`  ${file}:${line}:${column} ${message} ${fix}`);
  if (store && !(await hasOwner(store))) {
    const { code } = await ownerCode(store, new Date().toISOString());
    console.log('\n  To share with a crew: whoever opens this link within a day is the crew’s owner. To work alone, leave it.');
    console.log(`  ${joinLink(options.address ?? server.url, 'desk', code)}\n`);
  }
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void server.close().then(() => process.exit(0)));
}

main().catch((error: unknown) => {
  console.error(`The service could not start: ${wordsOf(error)}`);
  process.exitCode = 1;
});
