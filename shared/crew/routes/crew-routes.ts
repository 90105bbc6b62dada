import type { FastifyInstance, FastifyRequest } from 'fastify';
import QRCode from 'qrcode';
import { z } from 'zod';
import { type FreshCode, invitationRequestSchema, personChangeSchema } from '../../sync/wire/crew-wire.ts';
import { MAY_INVITE } from '../../sync/wire/role.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf } from '../roles/guard.ts';
import { readAudit } from '../store/audit-store.ts';
import { deviceCode, invite, listInvitations, type MadeCode, stopInvitation } from '../store/invitation-store.ts';
import { changePerson, listDevices, listPeople, stopDevice } from '../store/people-store.ts';
import { readBody, readQuery } from './read-request.ts';

/** The code stands behind `#`, which a browser sends to nobody: it comes into no log on the way. */
export const joinLink = (address: string, app: 'field' | 'desk', code: string): string => `${address}/${app}/#/join/${code}`;

export async function freshCode(address: string, { id, code, expires }: MadeCode): Promise<FreshCode> {
  const link = joinLink(address, 'field', code);
  const qr = await QRCode.toString(link, { type: 'svg', errorCorrectionLevel: 'M', margin: 2 });
  return { id, code, link, deskLink: joinLink(address, 'desk', code), qr, expires };
}

const devicesQuery = z.strictObject({ person: z.string().max(80).optional() });
const auditQuery = z.strictObject({ before: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).optional() });

/** People, their devices, invitations, and who did what. */
export function serveCrew(app: FastifyInstance, { store, now, address }: Hub): void {
  const addressFor = (request: FastifyRequest): string => address ?? `${request.protocol}://${request.host}`;

  app.get('/crew/devices', async (request, reply) => {
    const caller = callerOf(request);
    const query = readQuery(devicesQuery, request, reply);
    if (!query) return reply;
    const person = query.person ?? caller.person;
    if (person !== caller.person && caller.role !== 'owner') return refuse(reply, 'not-allowed');
    return { devices: await listDevices(store, person) };
  });

  app.post('/crew/devices/code', async (request, reply) => {
    reply.header('cache-control', 'no-store').code(201);
    return freshCode(addressFor(request), await deviceCode(store, callerOf(request), now()));
  });

  app.delete<{ Params: { device: string } }>('/crew/devices/:device', async (request, reply) => {
    const stopped = await stopDevice(store, callerOf(request), request.params.device, now());
    return stopped.ok ? { done: true } : refuse(reply, stopped.problem);
  });

  app.get('/crew/people', async () => ({ people: await listPeople(store) }));

  app.patch<{ Params: { person: string } }>('/crew/people/:person', async (request, reply) => {
    const change = readBody(personChangeSchema, request, reply);
    if (!change) return reply;
    const changed = await changePerson(store, callerOf(request), request.params.person, change, now());
    return changed.ok ? changed.value : refuse(reply, changed.problem);
  });

  app.post('/crew/invitations', async (request, reply) => {
    const wanted = readBody(invitationRequestSchema, request, reply);
    if (!wanted) return reply;
    const caller = callerOf(request);
    if (!MAY_INVITE[caller.role].includes(wanted.role)) return refuse(reply, 'not-allowed');
    const made = await invite(store, caller, wanted, now());
    const codes = await Promise.all(made.map((one) => freshCode(addressFor(request), one)));
    return reply.header('cache-control', 'no-store').code(201).send({ codes });
  });

  app.get('/crew/invitations', async (request) => ({ invitations: await listInvitations(store, callerOf(request)) }));

  app.delete<{ Params: { invitation: string } }>('/crew/invitations/:invitation', async (request, reply) => {
    const stopped = await stopInvitation(store, callerOf(request), request.params.invitation, now());
    return stopped.ok ? { done: true } : refuse(reply, stopped.problem);
  });

  app.get('/crew/audit', async (request, reply) => {
    const query = readQuery(auditQuery, request, reply);
    if (!query) return reply;
    return readAudit(store.db, query.before);
  });
}
