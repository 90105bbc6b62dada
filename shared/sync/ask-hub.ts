import type { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { eitherSignal } from './either-signal.ts';
import type { HubProblem } from './hub-problem.ts';
import { hubProblemSchema } from './wire/problem-wire.ts';

export type Fetch = (path: string, init?: RequestInit) => Promise<Response>;

/** How the hub is reached. Paths begin with `/crew/`; `fetch` puts the hub's address before them where it is not the page's own. */
export type HubWire = {
  readonly fetch: Fetch;
  /** The field device's token; undefined on a desk, which has a cookie, and before joining. */
  readonly token?: () => string | undefined;
  /** Milliseconds for one answer; 30 s where left out. Photos and editions get four times as long. */
  readonly patience?: number;
};

export type Question = {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  readonly json?: unknown;
  readonly raw?: { readonly body: Blob | ArrayBuffer; readonly type: string };
  readonly headers?: Readonly<Record<string, string>>;
  /** Statuses from 400 up that are answers here and no refusals. */
  readonly alsoGood?: readonly number[];
  readonly long?: boolean;
  readonly signal?: AbortSignal;
};

const PATIENCE = 30_000;

/** Milliseconds that a `retry-after` header asks for. */
function askedToWait(response: Response): number | undefined {
  const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
  return Number.isFinite(seconds) && seconds >= 0 ? Math.min(seconds, 3600) * 1000 : undefined;
}

async function refusal(response: Response): Promise<HubProblem> {
  const body: unknown = await response.json().catch(() => undefined);
  const parsed = hubProblemSchema.safeParse(body);
  const after = askedToWait(response);
  if (parsed.success)
    return { code: parsed.data.code, status: response.status, error: parsed.data.error, ...(after !== undefined && { after }), body };
  // A proxy in front of the hub answers in its own way; its status still says what kind of trouble it is.
  const bare = { status: response.status, error: '', ...(after !== undefined && { after }), body };
  if (response.status === 413) return { code: 'too-large', ...bare };
  if (response.status === 429) return { code: 'slow-down', ...bare };
  if (response.status >= 500) return { code: 'hub-troubled', ...bare };
  return { code: 'answer-not-understood', status: response.status };
}

/** Sends one question; the response if it is good, whatever it holds. Never throws. */
export async function askRaw(wire: HubWire, path: string, question: Question = {}): Promise<Result<Response, HubProblem>> {
  const { method = 'GET', json, raw, headers, alsoGood = [], long = false, signal } = question;
  const token = wire.token?.();
  const limit = AbortSignal.timeout((wire.patience ?? PATIENCE) * (long ? 4 : 1));
  let response: Response;
  try {
    response = await wire.fetch(path, {
      method,
      cache: 'no-cache',
      credentials: 'same-origin',
      signal: signal ? eitherSignal(limit, signal) : limit,
      headers: {
        ...(token !== undefined && { authorization: `Bearer ${token}` }),
        ...(json !== undefined && { 'content-type': 'application/json' }),
        ...(raw && { 'content-type': raw.type }),
        ...headers,
      },
      ...(json !== undefined && { body: JSON.stringify(json) }),
      ...(raw && { body: raw.body }),
    });
  } catch {
    return failure({ code: limit.aborted ? 'too-slow' : 'no-signal' });
  }
  return response.ok || response.status === 304 || alsoGood.includes(response.status) ? success(response) : failure(await refusal(response));
}

/** Sends one question and reads the answer by its schema. */
export async function ask<S extends z.ZodType>(
  wire: HubWire,
  path: string,
  schema: S,
  question: Question = {},
): Promise<Result<z.output<S>, HubProblem>> {
  const answered = await askRaw(wire, path, question);
  if (!answered.ok) return answered;
  let body: unknown;
  try {
    body = await answered.value.json();
  } catch {
    return failure({ code: 'no-signal' });
  }
  const parsed = schema.safeParse(body);
  if (parsed.success) return success(parsed.data);
  // 409 and 422 are answers only where they look like one.
  const problem = hubProblemSchema.safeParse(body);
  if (problem.success) return failure({ code: problem.data.code, status: answered.value.status, error: problem.data.error, body });
  return failure({ code: 'answer-not-understood', status: answered.value.status });
}
