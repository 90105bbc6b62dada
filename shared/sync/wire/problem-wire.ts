import { z } from 'zod';

/** Why the hub refused. Every answer from 400 up has one of these as its `code`. */
export const hubCodeSchema = z.enum([
  'not-understood',
  'not-joined',
  'device-stopped',
  'person-stopped',
  'not-allowed',
  'other-origin',
  'needs-https',
  'code-not-good',
  'name-missing',
  'not-there',
  'no-hub',
  'not-taken-here',
  'head-moved',
  'base-unknown',
  'edition-withdrawn',
  'not-an-edition',
  'not-its-hash',
  'last-owner',
  'photo-differs',
  'not-a-photo',
  'too-many-photos',
  'edition-unknown',
  'drill-not-good',
  'person-unknown',
  'run-differs',
  'too-many-entries',
  'too-large',
  'wrong-type',
  'slow-down',
  'hub-busy',
  'hub-troubled',
]);
export type HubCode = z.infer<typeof hubCodeSchema>;

/** The body of a refusal: the code for a program, `error` in words, and where it helps the place in what was sent. */
export const hubProblemSchema = z.looseObject({ code: hubCodeSchema, error: z.string(), where: z.string().optional() });
