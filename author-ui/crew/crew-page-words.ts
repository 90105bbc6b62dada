import { roleWords } from '../../shared/sync/hub-words.ts';
import type { AuditEntry, Invitation } from '../../shared/sync/wire/crew-wire.ts';
import { type DeviceKind, type Role, roleSchema } from '../../shared/sync/wire/role.ts';

const MAY: Readonly<Record<Role, string>> = {
  tech: 'walks the crew’s trees; the walks go to the hub. Sees their own walks.',
  'senior-tech': 'publishes trees to the crew and takes them back; sees every walk; invites techs.',
  trainer: 'sees every walk; invites techs.',
  owner: 'publishes trees, sees every walk, invites anyone, and says who is in the crew and as what.',
};

/** What someone of a role may do, to go after the role's name. */
export const mayWords = (role: Role): string => MAY[role];

/** Whether a link leads to the very machine that it is opened on. */
export function isOwnMachine(link: string): boolean {
  const { hostname } = new URL(link);
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}

export const deviceKindWords = (kind: DeviceKind): string => (kind === 'desk' ? 'Desk' : 'Phone');

export const momentWords = (iso: string): string => new Date(iso).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export const dayWords = (iso: string): string => new Date(iso).toLocaleDateString(undefined, { dateStyle: 'medium' });

export type InvitationStanding = 'open' | 'used' | 'stopped' | 'over';

export function invitationStanding({ used, stopped, expires }: Invitation, now: string): InvitationStanding {
  if (used !== undefined) return 'used';
  if (stopped !== undefined) return 'stopped';
  return expires <= now ? 'over' : 'open';
}

export function invitationWords(invitation: Invitation, now: string): string {
  switch (invitationStanding(invitation, now)) {
    case 'used':
      return `used ${momentWords(invitation.used ?? invitation.since)}`;
    case 'stopped':
      return `stopped ${momentWords(invitation.stopped ?? invitation.since)}`;
    case 'over':
      return `out of date since ${momentWords(invitation.expires)}`;
    case 'open':
      return `open until ${momentWords(invitation.expires)}`;
  }
}

const textOf = (details: AuditEntry['details'], name: string): string | undefined => {
  const value = details?.[name];
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
};

const roleOf = (details: AuditEntry['details'], name = 'role'): string => {
  const role = roleSchema.safeParse(details?.[name]);
  return role.success ? roleWords(role.data).toLowerCase() : 'someone';
};

const counted = (count: number, one: string, several = `${one}s`): string => (count === 1 ? `one ${one}` : `${count} ${several}`);

/** What an entry of the list says was done, to go after who did it. `nameOf` gives a person's name by id. */
export function deedWords({ what, about, details }: AuditEntry, nameOf: (id: string) => string): string {
  const tree = textOf(details, 'tree') ?? 'a tree';
  switch (what) {
    case 'joined':
      return `joined as ${roleOf(details)} on a ${details?.kind === 'desk' ? 'desk' : 'phone'}`;
    case 'device-added':
      return `added a ${details?.kind === 'desk' ? 'desk' : 'phone'} of their own`;
    case 'left':
      return 'took their own device out of the crew';
    case 'device-stopped':
      return 'stopped a device';
    case 'invited':
      return `made ${counted(Number(textOf(details, 'count') ?? 1), 'invitation')} as ${roleOf(details)}`;
    case 'invitation-stopped':
      return 'stopped an invitation';
    case 'device-code-made':
      return 'made a code for another device of their own';
    case 'person-changed':
      return personChangeWords(about === undefined ? 'someone' : nameOf(about), details);
    case 'published':
      return `published ${tree}, number ${textOf(details, 'number') ?? '?'}`;
    case 'withdrawn':
      return `took back an edition of ${tree}: ${textOf(details, 'why') ?? 'no reason given'}`;
    case 'fork-kept':
      return `sent ${counted(Number(textOf(details, 'lines') ?? 1), 'line')} of a walk that was carried on in two places`;
    case 'confirmed':
      return confirmedWords(details);
    case 'drill-given':
      return `gave a drill on ${tree}`;
    case 'drill-stopped':
      return 'stopped a drill';
    case 'owner-code-made':
      return 'made a link for an owner';
    case 'backed-up':
      return `made a backup${about === undefined ? '' : `: ${about}`}`;
    case 'restored':
      return `brought a backup back${about === undefined ? '' : `: ${about}`}`;
    default:
      return what.replaceAll('-', ' ');
  }
}

function personChangeWords(name: string, details: AuditEntry['details']): string {
  const told = [
    ...(details?.role === undefined ? [] : [`made ${name} ${roleOf(details)} (was ${roleOf(details, 'before')})`]),
    ...(details?.stopped === true ? [`took ${name} out of the crew`] : []),
    ...(details?.stopped === false ? [`let ${name} back into the crew`] : []),
    ...(details?.name === undefined ? [] : [`named someone ${textOf(details, 'name') ?? ''}`]),
  ];
  return told.length > 0 ? told.join(', ') : `changed nothing about ${name}`;
}

function confirmedWords(details: AuditEntry['details']): string {
  const fault = textOf(details, 'fault');
  const what = fault === undefined ? 'a walk’s finding' : `a walk’s finding, ${fault}`;
  if (details?.held === undefined) return `took back what was said of ${what}`;
  return details.held === true ? `confirmed ${what}` : `said that ${what} did not hold`;
}
