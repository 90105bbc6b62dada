// What `npm start` runs: install, build, serve, in one process, so that whatever stops this stops the service.
import { buildApps } from './build.mjs';
import { install } from './install.mjs';

if (!(await install()) || !(await buildApps())) process.exit(1);

// Only now is there a package that can run TypeScript.
const { register } = await import('tsx/esm/api');
register();
await import('../shared/crew/main.ts');

// npm puts a shell between itself and this, and that shell passes no signal on. When it is gone, so is whoever wanted the service.
if (process.env.npm_lifecycle_event) {
  const shell = process.ppid;
  setInterval(() => process.ppid !== shell && process.kill(process.pid, 'SIGTERM'), 500).unref();
}
