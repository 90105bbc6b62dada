import type { DeviceKind, Role } from '../../sync/wire/role.ts';

/** Who asks: a person of the crew, on one of their devices. */
export type Caller = { readonly person: string; readonly name: string; readonly role: Role; readonly device: string; readonly kind: DeviceKind };

/** May see every walk of the crew; a tech sees those of their own devices. */
export const seesAllWalks = ({ role }: Pick<Caller, 'role'>): boolean => role !== 'tech';
