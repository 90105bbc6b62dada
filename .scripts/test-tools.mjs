import { existsSync, readdirSync } from 'node:fs';
import { run, say } from './repo.mjs';

/** Where Debian puts the programs of PostgreSQL, one folder a version. */
const POSTGRES = '/usr/lib/postgresql';
const hasPostgres = () => existsSync(POSTGRES) && readdirSync(POSTGRES).some((version) => existsSync(`${POSTGRES}/${version}/bin/initdb`));

/** Programs that the tests use and npm cannot bring: a browser to drive, a circuit simulator to compare the bench with, and the hub's other database. */
const TOOLS = [
  { program: '/usr/bin/chromium', debianPackage: 'chromium', isThere: () => existsSync('/usr/bin/chromium') },
  { program: '/usr/bin/ngspice', debianPackage: 'ngspice', isThere: () => existsSync('/usr/bin/ngspice') },
  { program: POSTGRES, debianPackage: 'postgresql', isThere: hasPostgres },
];

/** Installs the missing ones with apt-get; says what to do where that is not possible. Resolves to whether all are there. */
export async function installTestTools() {
  const missing = TOOLS.filter(({ isThere }) => !isThere());
  if (missing.length === 0) return true;
  const names = missing.map(({ debianPackage }) => debianPackage);
  const byHand = `sudo apt-get update && sudo apt-get install --no-install-recommends ${names.join(' ')}`;
  if (!existsSync('/usr/bin/apt-get') || process.getuid?.() !== 0) {
    say(`The tests need ${names.join(' and ')} on this machine, and only root on a Debian system can install them from here.`);
    say(`On Debian or Ubuntu:  ${byHand}`);
    return false;
  }
  say(`Installing ${names.join(' and ')} for the tests.`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const wait = ['-o', 'DPkg::Lock::Timeout=300'];
  await run('apt-get', [...wait, '-qq', 'update'], { env });
  await run('apt-get', [...wait, '-qq', '-y', 'install', '--no-install-recommends', ...names], { env });
  const still = missing.filter(({ isThere }) => !isThere());
  if (still.length === 0) return true;
  say(`These are still missing: ${still.map(({ program }) => program).join(', ')}. Try it by hand:  ${byHand}`);
  return false;
}
