import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance, InjectOptions } from 'fastify';
import { buildServer, type HubOptions, type ServiceOptions } from '../../../shared/crew/serve.ts';
import { ownerCode } from '../../../shared/crew/store/invitation-store.ts';
import { type HubStore, openStore, type StorePlace } from '../../../shared/crew/store/open-store.ts';
import type { DeviceKind, Role } from '../../../shared/sync/wire/role.ts';

// biome-ignore lint/suspicious/noExplicitAny: what a test asks for, it looks into freely.
export type Answer = { readonly status: number; readonly headers: Record<string, unknown>; readonly text: string; readonly body: any };

export type Asking = {
  readonly json?: unknown;
  readonly raw?: Buffer | string;
  readonly type?: string;
  readonly headers?: Record<string, string>;
};

/** Someone of the crew on a device, who can ask the hub. */
export type Member = {
  readonly person: string;
  readonly device: string;
  readonly role: Role;
  readonly secret: string;
  ask(method: string, path: string, asking?: Asking): Promise<Answer>;
};

/** A folder without trees: nothing to compile. Always empty, so that all tests can share it. */
export const NO_TREES = join(tmpdir(), 'ohmward-no-trees');
mkdirSync(NO_TREES, { recursive: true });

export const ORIGIN = 'http://hub.test';

/** Far beyond what a test asks; what is tested elsewhere must not come in the way. */
export const NO_LIMITS = { device: 1e9, stranger: 1e9, codes: 1e9 };

export class HubUnderTest {
  readonly app: FastifyInstance;
  readonly store: HubStore;
  /** The hub's clock; a test moves it. */
  time: number;

  private constructor(app: FastifyInstance, store: HubStore, time: { now: number }) {
    this.app = app;
    this.store = store;
    this.time = time.now;
  }

  static async open(place: StorePlace, options: Partial<HubOptions> = {}, service: ServiceOptions = {}): Promise<HubUnderTest> {
    const store = await openStore(place);
    let hub: HubUnderTest | undefined;
    const start = Date.UTC(2026, 0, 20, 8);
    const now = (): string => new Date(hub?.time ?? start).toISOString();
    const { app } = await buildServer({ trees: NO_TREES, ...service, hub: { store, now, limits: NO_LIMITS, ...options } });
    await app.ready();
    hub = new HubUnderTest(app, store, { now: start });
    return hub;
  }

  now(): string {
    return new Date(this.time).toISOString();
  }

  async ask(method: string, path: string, { json, raw, type, headers }: Asking = {}): Promise<Answer> {
    const payload = json === undefined ? raw : JSON.stringify(json);
    const contentType = type ?? (json === undefined ? undefined : 'application/json');
    const answer = await this.app.inject({
      method: method as InjectOptions['method'] & string,
      url: path,
      headers: { host: 'hub.test', ...(contentType !== undefined && { 'content-type': contentType }), ...headers },
      ...(payload !== undefined && { payload }),
    } as InjectOptions);
    let body: unknown;
    try {
      body = JSON.parse(answer.body);
    } catch {
      body = undefined;
    }
    return { status: answer.statusCode, headers: answer.headers, text: answer.body, body };
  }

  /** Joins with a code. A desk keeps its cookie and shows the hub's own origin, as a browser does. */
  async join(code: string, name: string | undefined, kind: DeviceKind = 'field'): Promise<Member> {
    const answer = await this.ask('POST', '/crew/join', {
      json: { code, ...(name !== undefined && { name }), kind, label: `${name ?? 'another'} ${kind}` },
    });
    if (answer.status !== 201) throw new Error(`join: ${answer.status} ${answer.text}`);
    const cookie = /ohmward-desk=([^;]+)/.exec(String(answer.headers['set-cookie']))?.[1];
    const secret: string = kind === 'desk' ? (cookie ?? '') : answer.body.token;
    const own = kind === 'desk' ? { cookie: `ohmward-desk=${secret}`, origin: ORIGIN } : { authorization: `Bearer ${secret}` };
    return {
      person: answer.body.person.id,
      device: answer.body.device.id,
      role: answer.body.person.role,
      secret,
      ask: (method, path, asking = {}) => this.ask(method, path, { ...asking, headers: { ...own, ...asking.headers } }),
    };
  }

  async owner(kind: DeviceKind = 'field'): Promise<Member> {
    const { code } = await ownerCode(this.store, this.now());
    return this.join(code, 'Ona Owner', kind);
  }

  /** Someone new, invited by an owner. */
  async member(owner: Member, role: Role, name: string, kind: DeviceKind = 'field'): Promise<Member> {
    const invited = await owner.ask('POST', '/crew/invitations', { json: { role } });
    return this.join(invited.body.codes[0].code, name, kind);
  }

  close(): Promise<void> {
    return this.app.close();
  }
}

/** A place for a SQLite database that nothing else uses, and how to clear it away. */
export function sqlitePlace(): { readonly place: { readonly sqlite: string }; readonly folder: string; clear(): void } {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-hub-'));
  return { folder, place: { sqlite: join(folder, 'hub.sqlite') }, clear: () => rmSync(folder, { recursive: true, force: true }) };
}
