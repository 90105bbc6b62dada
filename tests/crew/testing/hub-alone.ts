import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startServer } from '../../../shared/crew/serve.ts';
import { openStore } from '../../../shared/crew/store/open-store.ts';
import { storePlace } from '../../../shared/crew/store/store-place.ts';

// A hub for tests that kill it: as `npm start` runs it, without trees and without limits on how often it is asked.
const store = await openStore(storePlace(process.env.DATA ?? '', process.env));
const limits = { device: 1e9, stranger: 1e9, codes: 1e9 };
const trees = join(tmpdir(), 'ohmward-no-trees');
mkdirSync(trees, { recursive: true });
const server = await startServer({ port: Number(process.env.PORT ?? 0), host: '127.0.0.1', trees, hub: { store, limits } });
console.log(server.url);

// A test that is stopped in the midst leaves no hub behind, even if it was stopped before this came up.
const parent = Number(process.env.PARENT ?? process.ppid);
setInterval(() => process.ppid !== parent && process.exit(), 1000).unref();
