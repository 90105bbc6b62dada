import { z } from 'zod';

/** What someone may do in the crew, from the least to the most. */
export const ROLES = ['tech', 'senior-tech', 'trainer', 'owner'] as const;
export const roleSchema = z.enum(ROLES);
export type Role = z.infer<typeof roleSchema>;

/** Where a device is used: a phone, which shows its token with every request, or a desk, which has a cookie. */
export const deviceKindSchema = z.enum(['field', 'desk']);
export type DeviceKind = z.infer<typeof deviceKindSchema>;

/** The roles that someone of a role may invite. */
export const MAY_INVITE: Readonly<Record<Role, readonly Role[]>> = {
  tech: [],
  'senior-tech': ['tech'],
  trainer: ['tech'],
  owner: ROLES,
};
