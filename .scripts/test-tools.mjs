import { existsSync } from 'node:fs';
import { run, say } from './repo.mjs';

/** Programs that the tests use and npm cannot bring: a browser to drive, and a circuit simulator to compare the bench with. */
const TOOLS = [
  { program: '/usr/bin/chromium', debianPackage: 'chromium' },
  { program: '/usr/bin/ngspice', debianPackage: 'ngspice' },
];

/** Installs the missing ones with apt-get; says what to do where that is not possible. Resolves to whether all are there. */
export async function installTestTools() {
  const missing = TOOLS.filter(({ program }) => !existsSync(program));
  if (missing.length === 0) return true;
  const names = missing.map(({ debianPackage }) => debianPackage);
  const byHand = `sudo apt-get update && sudo apt-get install --no-install-recommends ${names.join(' ')}`;
  if (!existsSync('/usr/bin/apt-get') || process.getuid?.() !== 0) {
    say(`The tests need ${names.join(' and ')} in /usr/bin, and only root on a Debian system can install them from here.`);
    say(`On Debian or Ubuntu:  ${byHand}`);
    return false;
  }
  say(`Installing ${names.join(' and ')} for the tests.`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const wait = ['-o', 'DPkg::Lock::Timeout=300'];
  await run('apt-get', [...wait, '-qq', 'update'], { env });
  await run('apt-get', [...wait, '-qq', '-y', 'install', '--no-install-recommends', ...names], { env });
  const still = missing.filter(({ program }) => !existsSync(program));
  if (still.length === 0) return true;
  say(`These are still missing: ${still.map(({ program }) => program).join(', ')}. Try it by hand:  ${byHand}`);
  return false;
}
