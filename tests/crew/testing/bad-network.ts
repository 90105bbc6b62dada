import type { Fetch } from '../../../shared/sync/ask-hub.ts';
import type { HubUnderTest } from './hub-under-test.ts';

/** What happens to one request on its way. */
export type Fate =
  | 'well'
  /** Never arrives. */
  | 'lost'
  /** Arrives; the answer does not come back. */
  | 'unanswered'
  /** Arrives twice, and both answers are the second's. */
  | 'twice'
  /** Does not arrive now, but after the request that comes next: out of order. */
  | 'late'
  /** Something in between answers. */
  | 'sign-in page'
  | 'bad gateway'
  | 'slow down'
  | 'too large';

/** A way to the hub on which each request has the next of the fates given, and every one after them goes well. */
export class BadNetwork {
  readonly #hub: () => HubUnderTest;
  readonly #fates: Fate[];
  #late: (() => Promise<Response>)[] = [];
  asked = 0;

  constructor(hub: () => HubUnderTest, fates: readonly Fate[] = []) {
    this.#hub = hub;
    this.#fates = [...fates];
  }

  readonly fetch: Fetch = async (path, init) => {
    this.asked += 1;
    const fate = this.#fates.shift() ?? 'well';
    const send = () => this.#deliver(path, init ?? {});
    const waiting = this.#late;
    this.#late = [];
    const answer = await this.#meet(fate, send, path);
    for (const late of waiting) await late();
    return answer;
  };

  async #meet(fate: Fate, send: () => Promise<Response>, path: string): Promise<Response> {
    switch (fate) {
      case 'well':
        return send();
      case 'lost':
        throw new TypeError('network');
      case 'unanswered':
        await send();
        throw new TypeError('network');
      case 'twice':
        await send();
        return send();
      case 'late':
        this.#late.push(send);
        throw new TypeError('network');
      case 'sign-in page':
        return new Response('<html>Welcome to the hotel</html>', { status: 200, headers: { 'content-type': 'text/html' } });
      case 'bad gateway':
        return new Response('502', { status: 502 });
      case 'slow down':
        return new Response('{}', { status: 429, headers: { 'retry-after': '7' } });
      case 'too large':
        return path.includes('/lines') ? new Response('413', { status: 413 }) : send();
    }
  }

  async #deliver(path: string, init: RequestInit): Promise<Response> {
    const headers = Object.fromEntries(new Headers(init.headers));
    const raw = init.body instanceof Blob ? Buffer.from(await init.body.arrayBuffer()) : (init.body as string | undefined);
    const answer = await this.#hub().app.inject({
      method: (init.method ?? 'GET') as 'GET',
      url: path,
      headers: { host: 'hub.test', ...headers },
      ...(raw !== undefined && { payload: raw }),
    });
    const empty = answer.statusCode === 304 || answer.statusCode === 204;
    return new Response(empty ? null : new Uint8Array(answer.rawPayload), {
      status: answer.statusCode,
      headers: answer.headers as Record<string, string>,
    });
  }
}
