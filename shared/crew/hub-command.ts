import { Command } from 'commander';
import { backUp, restore } from './backup/backup.ts';
import { backupProblemWords } from './backup/backup-words.ts';
import { ownerCode } from './store/invitation-store.ts';
import { type HubStore, openStore } from './store/open-store.ts';
import { storePlace, USUAL_DATA } from './store/store-place.ts';

const now = (): string => new Date().toISOString();

async function withStore(work: (store: HubStore) => Promise<void>): Promise<void> {
  const store = await openStore(storePlace(program.opts<{ data: string }>().data, process.env));
  try {
    await work(store);
  } finally {
    await store.close();
  }
}

const fail = (words: string): void => {
  console.error(words);
  process.exitCode = 1;
};

const program = new Command('npm run -s hub --')
  .description('Looks after the hub’s data, with the hub running or not.')
  .option('--data <folder>', 'folder of the hub’s data; DATABASE_URL names a PostgreSQL database instead', process.env.DATA ?? USUAL_DATA);

program
  .command('backup <file>')
  .description('writes all that the hub has into one file')
  .action((file: string) =>
    withStore(async (store) => {
      const done = await backUp(store, file, now());
      if (done.ok) console.log(`${file} has everything up to now: ${done.value.rows} log lines among it.`);
      else fail(backupProblemWords(done.problem, file));
    }),
  );

program
  .command('restore <file>')
  .description('puts a backup into a hub that is empty; stop the hub before')
  .option('--replace', 'also into one that is not: what it holds is gone then')
  .action((file: string, { replace }: { replace?: true }) =>
    withStore(async (store) => {
      const done = await restore(store, file, now(), { replace: replace === true });
      if (done.ok) console.log(`The hub has everything that ${file} has: ${done.value.rows} rows.`);
      else fail(backupProblemWords(done.problem, file));
    }),
  );

program
  .command('owner-code')
  .description('a code with which someone joins as an owner, where every owner’s device is lost; good for a day, once')
  .action(() => withStore(async (store) => console.log((await ownerCode(store, now())).code)));

program.parseAsync().catch((error: unknown) => fail(error instanceof Error ? error.message : String(error)));
