import type { FastifyReply, FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { refuse } from '../hub-refusal.ts';

/** Nothing that the apps send is nearly as deep; reading deeper would cost the stack. */
const DEEPEST = 100;

/** Why JSON from outside cannot be read: nested too deep, or (where `texts` have to be kept as they are) a text with a NUL in it. */
function unreadable(value: unknown, texts: boolean): string | undefined {
  const waiting: { readonly value: unknown; readonly depth: number }[] = [{ value, depth: 0 }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.depth > DEEPEST) return 'nested too deep';
    if (texts && typeof next.value === 'string' && next.value.includes('\u0000')) return 'a text with a NUL in it';
    if (typeof next.value !== 'object' || next.value === null) continue;
    for (const [key, inner] of Object.entries(next.value)) {
      if (texts && key.includes('\u0000')) return 'a name with a NUL in it';
      if (typeof inner === 'object' || (texts && typeof inner === 'string')) waiting.push({ value: inner, depth: next.depth + 1 });
    }
  }
  return undefined;
}

function read<S extends z.ZodType>(schema: S, input: unknown, reply: FastifyReply, texts: boolean): z.output<S> | undefined {
  const why = unreadable(input, texts);
  if (why !== undefined) {
    refuse(reply, 'not-understood', { where: why });
    return undefined;
  }
  const parsed = schema.safeParse(input);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  refuse(reply, 'not-understood', { where: `${issue?.path.join('.') ?? ''}: ${issue?.message ?? ''}`.slice(0, 300) });
  return undefined;
}

/** The body by its schema; undefined after it has been refused. */
export const readBody = <S extends z.ZodType>(schema: S, request: FastifyRequest, reply: FastifyReply): z.output<S> | undefined =>
  read(schema, request.body, reply, true);

/** The body of an upload of lines, which are kept as JSON and may have any text in them. */
export const readLinesBody = <S extends z.ZodType>(schema: S, request: FastifyRequest, reply: FastifyReply): z.output<S> | undefined =>
  read(schema, request.body, reply, false);

export const readQuery = <S extends z.ZodType>(schema: S, request: FastifyRequest, reply: FastifyReply): z.output<S> | undefined =>
  read(schema, request.query, reply, true);
