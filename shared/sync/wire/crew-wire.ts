import { z } from 'zod';
import { deviceKindSchema, roleSchema } from './role.ts';

// What the hub takes and answers about people and their devices. Times are ISO 8601 in UTC.

const id = z.string().min(1).max(80);
const moment = z.string().max(40);

export const personSchema = z.object({ id, name: z.string(), role: roleSchema, since: moment, stopped: moment.optional() });
export type Person = z.infer<typeof personSchema>;

export const deviceSchema = z.object({
  id,
  person: id,
  kind: deviceKindSchema,
  label: z.string(),
  since: moment,
  /** When it last asked the hub for something, to within a few minutes. */
  seen: moment,
  expires: moment.optional(),
  stopped: moment.optional(),
});
export type Device = z.infer<typeof deviceSchema>;

/** What the hub says of itself to anyone. */
export const hubStateSchema = z.object({
  hub: z.literal('ohmward'),
  /** False until the first owner has joined with the code that the hub's terminal shows. */
  owned: z.boolean(),
  now: moment,
  /** How the device that asks stands to the crew, so that it can ask without being refused. */
  you: z.enum(['joined', 'stranger', 'device-stopped', 'person-stopped']).optional(),
});
export type HubState = z.infer<typeof hubStateSchema>;

/** Who is asking. */
export const meSchema = z.object({ person: personSchema, device: deviceSchema });
export type Me = z.infer<typeof meSchema>;

const named = (max: number) => z.string().trim().min(1).max(max);

export const joinRequestSchema = z.strictObject({
  /** As printed or linked: capitals, spaces and dashes do not matter. */
  code: z.string().min(1).max(100),
  /** Left out where the code is for another device of someone who is in the crew already. */
  name: named(80).optional(),
  kind: deviceKindSchema,
  /** What to call the device in the list, such as "Van 3 phone". */
  label: named(80),
});
export type JoinRequest = z.infer<typeof joinRequestSchema>;

/** `token` is told this once, and only to a field device; a desk has its cookie. */
export const joinedSchema = meSchema.extend({ token: z.string().optional() });
export type Joined = z.infer<typeof joinedSchema>;

export const invitationRequestSchema = z.strictObject({
  role: roleSchema,
  /** Whole hours until the codes are void. */
  hours: z
    .number()
    .int()
    .min(1)
    .max(24 * 90)
    .default(72),
  /** How many, one code each. */
  count: z.number().int().min(1).max(500).default(1),
  /** Who it is for, as a reminder in the list. */
  note: z.string().trim().max(120).optional(),
});
export type InvitationRequest = z.input<typeof invitationRequestSchema>;

export const invitationSchema = z.object({
  id,
  role: roleSchema,
  by: id.optional(),
  since: moment,
  expires: moment,
  note: z.string().optional(),
  used: moment.optional(),
  stopped: moment.optional(),
});
export type Invitation = z.infer<typeof invitationSchema>;

/** A fresh code, told this once. `link` opens the field app, `deskLink` the desk; `qr` is `link` as an SVG document. */
export const freshCodeSchema = z.object({ id, code: z.string(), link: z.string(), deskLink: z.string(), qr: z.string(), expires: moment });
export type FreshCode = z.infer<typeof freshCodeSchema>;

export const personChangeSchema = z.strictObject({ role: roleSchema.optional(), stopped: z.boolean().optional(), name: named(80).optional() });
export type PersonChange = z.infer<typeof personChangeSchema>;

export const auditEntrySchema = z.object({
  id: z.number().int(),
  at: moment,
  /** Absent where it was done on the hub's own machine. */
  person: id.optional(),
  device: id.optional(),
  what: z.string(),
  about: z.string().optional(),
  details: z.record(z.string(), z.unknown()).optional(),
});
export type AuditEntry = z.infer<typeof auditEntrySchema>;

export const peopleSchema = z.object({ people: z.array(personSchema) });
export const devicesSchema = z.object({ devices: z.array(deviceSchema) });
export const invitationsSchema = z.object({ invitations: z.array(invitationSchema) });
export const freshCodesSchema = z.object({ codes: z.array(freshCodeSchema) });
export const auditPageSchema = z.object({ entries: z.array(auditEntrySchema), next: z.number().int().optional() });
