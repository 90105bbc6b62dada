import type { FastifyRequest, FastifyServerOptions } from 'fastify';

export type LogLevel = 'silent' | 'error' | 'warn' | 'info' | 'debug';

/**
 * One JSON object a line. Of a request only its method, the route it found (not the path, which someone may have typed a code into) and where
 * it came from; of an error its kind and place. Headers, queries and bodies, where secrets are, never come near it.
 */
export function hubLogger(level: LogLevel, stream?: { write(line: string): void }): FastifyServerOptions['logger'] {
  if (level === 'silent') return false;
  return {
    level,
    ...(stream && { stream }),
    serializers: {
      req: (request: FastifyRequest) => ({ method: request.method, route: request.routeOptions?.url ?? '(none)', from: request.ip }),
      res: (reply) => ({ statusCode: reply.statusCode ?? 0 }),
      err: (error) => ({ type: error.name, code: error.code, message: '', stack: placesOf(error.stack) }),
    },
  };
}

/** The lines of a stack that name places; the message before them may quote what was sent. */
const placesOf = (stack: string | undefined): string =>
  (stack ?? '')
    .split('\n')
    .filter((line) => /^\s+at /.test(line))
    .join('\n');
