import { ROLES, type Role } from '../../sync/wire/role.ts';

/** Who may use a route: anyone at all, who holds the key for metrics (or is an owner), or the roles named. */
export type Access = 'anyone' | 'metrics' | readonly Role[];

const CREW: readonly Role[] = ROLES;
const WRITERS: readonly Role[] = ['senior-tech', 'owner'];
const INVITERS: readonly Role[] = ['senior-tech', 'trainer', 'owner'];
const REVIEWERS: readonly Role[] = ['senior-tech', 'trainer', 'owner'];
const OWNER: readonly Role[] = ['owner'];

/**
 * Every route of the service and who may use it. A route that is not here cannot be added, and nobody may use what is not here. What a role
 * may do with which walk, device or person is said where it is done.
 */
export const ACCESS: Readonly<Record<string, Access>> = {
  // The pages and what ships with this copy: as readable without a crew as with one.
  'GET /': 'anyone',
  'GET /front-door.css': 'anyone',
  'GET /theme.css': 'anyone',
  'GET /mark.svg': 'anyone',
  'GET /fonts/b612-latin-400-normal.woff2': 'anyone',
  'GET /fonts/b612-latin-700-normal.woff2': 'anyone',
  'GET /field': 'anyone',
  'GET /field/*': 'anyone',
  'GET /desk': 'anyone',
  'GET /desk/*': 'anyone',
  'GET /editions/index.json': 'anyone',
  'GET /editions/:file': 'anyone',
  'GET /trees/': 'anyone',
  'GET /trees/:file': 'anyone',
  'GET /trees/:folder/:file': 'anyone',

  'GET /crew/readiness': 'anyone',
  'GET /crew/metrics': 'metrics',

  'GET /crew/state': 'anyone',
  'POST /crew/join': 'anyone',
  'GET /crew/me': CREW,
  'POST /crew/leave': CREW,

  'GET /crew/devices': CREW,
  'POST /crew/devices/code': CREW,
  'DELETE /crew/devices/:device': CREW,

  'GET /crew/people': REVIEWERS,
  'PATCH /crew/people/:person': OWNER,
  'POST /crew/invitations': INVITERS,
  'GET /crew/invitations': INVITERS,
  'DELETE /crew/invitations/:invitation': INVITERS,

  'GET /crew/editions': CREW,
  'POST /crew/editions': WRITERS,
  'GET /crew/editions/:hash': CREW,
  'PUT /crew/editions/:hash': CREW,
  'POST /crew/editions/:hash/withdrawal': WRITERS,
  'GET /crew/trees/:tree/publications': CREW,

  'POST /crew/walks/lines': CREW,
  'POST /crew/walks/standings': CREW,
  'GET /crew/walks': CREW,
  'GET /crew/walks/:walk/lines': CREW,
  'GET /crew/walks/:walk/photos/:photo': CREW,
  'PUT /crew/photos/:hash': CREW,
  'GET /crew/changes': REVIEWERS,

  'POST /crew/walks/:walk/confirmations': REVIEWERS,
  'GET /crew/walks/:walk/confirmations': REVIEWERS,
  'GET /crew/trees/:tree/picture': REVIEWERS,
  'GET /crew/confirmed-faults': REVIEWERS,

  'POST /crew/drills': REVIEWERS,
  'GET /crew/drills': CREW,
  'DELETE /crew/drills/:drill': REVIEWERS,
  'PUT /crew/drills/:drill/runs/:run': CREW,
  'GET /crew/drills/:drill/runs': CREW,

  'GET /crew/audit': OWNER,
};

/** What the table says of a route; HEAD is asked as GET is. */
export const accessOf = (method: string, path: string): Access | undefined => {
  const key = `${method === 'HEAD' ? 'GET' : method} ${path}`;
  return Object.hasOwn(ACCESS, key) ? ACCESS[key] : undefined;
};
