import type { FastifyReply } from 'fastify';
import type { HubCode } from '../sync/wire/problem-wire.ts';

const REFUSALS: Readonly<Record<HubCode, { readonly status: number; readonly error: string }>> = {
  'not-understood': { status: 400, error: 'That is not something this service can answer.' },
  'not-joined': { status: 401, error: 'This device is not in the crew. Join with an invitation.' },
  'device-stopped': { status: 401, error: 'This device was taken out of the crew. Ask for a new invitation.' },
  'person-stopped': { status: 401, error: 'You were taken out of the crew. Ask an owner.' },
  'not-allowed': { status: 403, error: 'Your role may not do this. Ask an owner.' },
  'other-origin': { status: 403, error: 'This did not come from the hub’s own page. Open the desk at the hub’s address.' },
  'needs-https': { status: 403, error: 'Joining over this address would show the token to the network. Use the https address of the hub.' },
  'code-not-good': { status: 403, error: 'The code does not hold: mistyped, used, stopped or out of date. Ask for a new one.' },
  'name-missing': { status: 400, error: 'The crew needs a name to know you by.' },
  'not-there': { status: 404, error: 'There is nothing at this address.' },
  'no-hub': { status: 404, error: 'This service runs without a hub.' },
  'not-taken-here': { status: 405, error: 'Nothing is taken in at this address.' },
  'head-moved': {
    status: 409,
    error: 'Someone published this tree after the edition that yours was made from. Look at theirs, then publish after it.',
  },
  'base-unknown': { status: 409, error: 'The edition that yours was made from is not on this hub. Load the list and publish after the current one.' },
  'edition-withdrawn': { status: 409, error: 'This very edition was withdrawn. Change it, then publish.' },
  'not-an-edition': { status: 422, error: 'This is not an edition that can be walked.' },
  'not-its-hash': { status: 422, error: 'What was sent is not what its hash names.' },
  'last-owner': { status: 409, error: 'The crew would have no owner left. Make someone else an owner first.' },
  'photo-differs': { status: 409, error: 'The walk has another picture under this name.' },
  'not-a-photo': { status: 422, error: 'This is not a JPEG, PNG or WebP picture.' },
  'too-many-photos': { status: 409, error: 'The walk has as many photos as are kept for one.' },
  'edition-unknown': { status: 409, error: 'The edition of this drill is not on this hub. Publish it first.' },
  'drill-not-good': { status: 422, error: 'This drill cannot be done as it is set; `where` says why.' },
  'person-unknown': { status: 409, error: 'Someone it is for is not in the crew. Load the people again.' },
  'run-differs': { status: 409, error: 'Another drill was sent under this name.' },
  'too-many-entries': { status: 409, error: 'There are as many of these as are kept.' },
  'too-large': { status: 413, error: 'This is larger than what is taken here.' },
  'wrong-type': { status: 415, error: 'This kind of content is not taken here.' },
  'slow-down': { status: 429, error: 'Too many requests. Wait as long as retry-after says.' },
  'hub-busy': { status: 503, error: 'The hub cannot reach its data now. Try again soon; nothing is lost.' },
  'hub-troubled': { status: 500, error: 'The service could not answer. Its own window says why.' },
};

type RefusalBody = { readonly code: HubCode; readonly error: string } & Readonly<Record<string, unknown>>;

export const refusalBody = (code: HubCode, more: Readonly<Record<string, unknown>> = {}): RefusalBody => ({
  code,
  error: REFUSALS[code].error,
  ...more,
});

/** Answers with a refusal. `more` goes with it: where in what was sent, or what stands in the way. */
export function refuse(reply: FastifyReply, code: HubCode, more?: Readonly<Record<string, unknown>>): FastifyReply {
  return reply.code(REFUSALS[code].status).send(refusalBody(code, more));
}
