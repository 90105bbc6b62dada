import { z } from 'zod';
import { failure, type Result, success } from '../../engine/result.ts';
import { type Edition, editionHash, readEdition } from '../../engine/walk/index.ts';
import { ask, askRaw, type HubWire } from './ask-hub.ts';
import type { HubProblem } from './hub-problem.ts';
import {
  auditPageSchema,
  devicesSchema,
  freshCodeSchema,
  freshCodesSchema,
  hubStateSchema,
  type InvitationRequest,
  invitationsSchema,
  type JoinRequest,
  joinedSchema,
  meSchema,
  type PersonChange,
  peopleSchema,
  personSchema,
} from './wire/crew-wire.ts';
import { type DrillRequest, drillRunsSchema, givenDrillSchema, givenDrillsSchema } from './wire/drill-wire.ts';
import {
  type EditionList,
  editionListSchema,
  historySchema,
  type PublicationEntry,
  type Published,
  type PublishRequest,
  publicationEntrySchema,
  publishedSchema,
} from './wire/edition-wire.ts';
import {
  type ConfirmRequest,
  confirmationEntrySchema,
  confirmationsSchema,
  confirmedFaultsSchema,
  crewPictureSchema,
  type PictureQuery,
} from './wire/review-wire.ts';
import {
  standingsSchema,
  type UploadRequest,
  uploadAnswerSchema,
  type WalkQuery,
  walkChangesSchema,
  walkLinesSchema,
  walkPageSchema,
} from './wire/walk-wire.ts';

const done = z.object({ done: z.literal(true) });

const headMovedSchema = z.object({
  code: z.literal('head-moved'),
  /** What the crew walks now: published by someone else since `basedOn`. */
  head: publicationEntrySchema,
  /** What yours was made from, where the hub knows it. */
  base: publicationEntrySchema.optional(),
});

/** Why a tree was not published. With `head-moved`, the publication that came in between: nothing of yours was changed or lost. */
export type PublishProblem = HubProblem | { readonly code: 'overtaken'; readonly head: PublicationEntry; readonly base?: PublicationEntry };

function query(values: Readonly<Record<string, string | number | undefined>>): string {
  const given = Object.entries(values).flatMap(([name, value]) => (value === undefined || value === '' ? [] : [[name, String(value)]]));
  return given.length === 0 ? '' : `?${new URLSearchParams(given)}`;
}

const part = encodeURIComponent;

/** Every question that the apps ask the hub. Each answers with a value or a problem and never throws. */
export function hubClient(wire: HubWire) {
  return {
    state: () => ask(wire, '/crew/state', hubStateSchema),

    /** Joins with a code. A desk has its cookie afterwards; a field device is told its token, this once. */
    join: (request: JoinRequest) => ask(wire, '/crew/join', joinedSchema, { method: 'POST', json: request }),
    me: () => ask(wire, '/crew/me', meSchema),
    /** Takes this device out of the crew. What is stored on it stays. */
    leave: () => ask(wire, '/crew/leave', done, { method: 'POST', json: {} }),

    /** One's own devices; for an owner, those of `person`. */
    devices: (person?: string) => ask(wire, `/crew/devices${query({ person })}`, devicesSchema),
    /** A code with which another device joins as oneself. */
    addDevice: () => ask(wire, '/crew/devices/code', freshCodeSchema, { method: 'POST', json: {} }),
    stopDevice: (device: string) => ask(wire, `/crew/devices/${part(device)}`, done, { method: 'DELETE' }),

    people: () => ask(wire, '/crew/people', peopleSchema),
    changePerson: (person: string, change: PersonChange) =>
      ask(wire, `/crew/people/${part(person)}`, personSchema, { method: 'PATCH', json: change }),

    invite: (request: InvitationRequest) => ask(wire, '/crew/invitations', freshCodesSchema, { method: 'POST', json: request }),
    invitations: () => ask(wire, '/crew/invitations', invitationsSchema),
    stopInvitation: (invitation: string) => ask(wire, `/crew/invitations/${part(invitation)}`, done, { method: 'DELETE' }),

    /** What can be walked now; `unchanged` where `mark` (of the answer before) still holds. */
    async editions(mark?: string): Promise<Result<{ readonly list?: EditionList; readonly mark?: string }, HubProblem>> {
      const answered = await askRaw(wire, '/crew/editions', mark === undefined ? {} : { headers: { 'if-none-match': mark } });
      if (!answered.ok) return answered;
      if (answered.value.status === 304) return success(mark === undefined ? {} : { mark });
      const parsed = editionListSchema.safeParse(await answered.value.json().catch(() => undefined));
      if (!parsed.success) return failure({ code: 'answer-not-understood', status: answered.value.status });
      const next = answered.value.headers.get('etag') ?? undefined;
      return success({ list: parsed.data, ...(next !== undefined && { mark: next }) });
    },

    /** Fetches an edition and checks that it is what its hash names and can be walked. */
    async edition(hash: string): Promise<Result<Edition, HubProblem>> {
      const answered = await askRaw(wire, `/crew/editions/${part(hash)}`, { long: true });
      if (!answered.ok) return answered;
      const read = readEdition(await answered.value.json().catch(() => undefined));
      if (!read.ok || editionHash(read.value) !== hash) return failure({ code: 'answer-not-understood', status: answered.value.status });
      return success(read.value);
    },

    /** Every publication of a tree, newest first. */
    history: (tree: string) => ask(wire, `/crew/trees/${part(tree)}/publications`, historySchema),

    /** Publishes. Overtaken by someone else's: shows theirs; publish again with `basedOn` theirs to go after it on purpose. */
    async publish(request: PublishRequest): Promise<Result<Published, PublishProblem>> {
      const answered = await ask(wire, '/crew/editions', publishedSchema, { method: 'POST', json: request, long: true });
      if (answered.ok || answered.problem.code !== 'head-moved') return answered;
      const moved = headMovedSchema.safeParse('body' in answered.problem ? answered.problem.body : undefined);
      if (!moved.success) return answered;
      const { head, base } = moved.data;
      return failure({ code: 'overtaken', head, ...(base && { base }) });
    },

    withdraw: (hash: string, why: string) => ask(wire, `/crew/editions/${part(hash)}/withdrawal`, done, { method: 'POST', json: { why } }),

    /** Puts an edition that a walk was walked on beside the crew's, unlisted, so that the walk can be replayed there. */
    keepEdition: (hash: string, edition: unknown) => ask(wire, `/crew/editions/${part(hash)}`, done, { method: 'PUT', json: edition, long: true }),

    /** Sends log lines. Forks and refusals are in the outcomes, not problems. */
    upload: (request: UploadRequest, signal?: AbortSignal) =>
      ask(wire, '/crew/walks/lines', uploadAnswerSchema, { method: 'POST', json: request, alsoGood: [409, 422], ...(signal && { signal }) }),
    standings: (walks: readonly string[]) => ask(wire, '/crew/walks/standings', standingsSchema, { method: 'POST', json: { walks } }),

    walks: (wanted: WalkQuery = {}) => ask(wire, `/crew/walks${query(wanted as Record<string, string | number | undefined>)}`, walkPageSchema),
    walkLines: (walk: string, from = 0) => ask(wire, `/crew/walks/${part(walk)}/lines${query({ from })}`, walkLinesSchema, { long: true }),
    changes: (after = 0, most = 100) => ask(wire, `/crew/changes${query({ after, most })}`, walkChangesSchema),

    /** Adds what was learnt of a walk's finding afterwards; it holds from now on. */
    confirm: (walk: string, request: ConfirmRequest) =>
      ask(wire, `/crew/walks/${part(walk)}/confirmations`, confirmationEntrySchema, { method: 'POST', json: request }),
    /** Everything that was said of it, the newest first. */
    confirmations: (walk: string) => ask(wire, `/crew/walks/${part(walk)}/confirmations`, confirmationsSchema),
    /** Where the crew's calls of a tree go, edition by edition. */
    picture: (tree: string, span: PictureQuery = {}) =>
      ask(wire, `/crew/trees/${part(tree)}/picture${query(span)}`, crewPictureSchema, { long: true }),
    confirmedFaults: () => ask(wire, '/crew/confirmed-faults', confirmedFaultsSchema),

    /** Gives a drill. Its edition has to be on the hub first: published, shipped, or put there by `keepEdition`. */
    giveDrill: (request: DrillRequest) => ask(wire, '/crew/drills', givenDrillSchema, { method: 'POST', json: request }),
    /** The newest first: every drill for who reviews, those that wait for a tech for the tech. */
    drills: () => ask(wire, '/crew/drills', givenDrillsSchema),
    stopDrill: (drill: string) => ask(wire, `/crew/drills/${part(drill)}`, done, { method: 'DELETE' }),
    /** Sends a drill as it was done, under its own `run.id`. */
    sendDrillRun: (drill: string, id: string, run: Readonly<Record<string, unknown>>) =>
      ask(wire, `/crew/drills/${part(drill)}/runs/${part(id)}`, done, { method: 'PUT', json: { run } }),
    drillRuns: (drill: string) => ask(wire, `/crew/drills/${part(drill)}/runs`, drillRunsSchema, { long: true }),

    /** Sends a photo under its SHA-256 in hex. */
    sendPhoto: (photo: { readonly hash: string; readonly walk: string; readonly id: string; readonly picture: Blob }) =>
      ask(wire, `/crew/photos/${part(photo.hash)}${query({ walk: photo.walk, photo: photo.id })}`, done, {
        method: 'PUT',
        raw: { body: photo.picture, type: photo.picture.type },
        long: true,
      }),
    async photo(walk: string, id: string): Promise<Result<Blob, HubProblem>> {
      const answered = await askRaw(wire, `/crew/walks/${part(walk)}/photos/${part(id)}`, { long: true });
      if (!answered.ok) return answered;
      try {
        return success(await answered.value.blob());
      } catch {
        return failure({ code: 'no-signal' });
      }
    },

    /** Who did what, newest first; `before` is `next` of the page before. */
    audit: (before?: number) => ask(wire, `/crew/audit${query({ before })}`, auditPageSchema),
  };
}

export type HubClient = ReturnType<typeof hubClient>;
