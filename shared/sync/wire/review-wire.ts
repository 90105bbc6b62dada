import { z } from 'zod';
import { hashSchema } from './hash-schema.ts';

// What the hub takes and answers about findings confirmed later, and about where a crew's walks go. Times are ISO 8601 in UTC.

const moment = z.string().max(40);

/** What was learnt of a finding afterwards. Left out `held`: what was said before is taken back. */
export const confirmRequestSchema = z.strictObject({
  held: z.boolean().optional(),
  bench: z.string().max(200).optional(),
  fault: z.string().max(200).optional(),
  note: z.string().trim().max(500).optional(),
});
export type ConfirmRequest = z.infer<typeof confirmRequestSchema>;

/** Entries are only added; the newest of a walk is what holds. */
export const confirmationEntrySchema = confirmRequestSchema.extend({ walk: z.string(), at: moment, person: z.string(), personName: z.string() });
export type ConfirmationEntry = z.infer<typeof confirmationEntrySchema>;
export const confirmationsSchema = z.object({ confirmations: z.array(confirmationEntrySchema) });

/** Which calls a picture is of: of one edition, opened at or after, and before. */
export const pictureQuerySchema = z.strictObject({
  edition: hashSchema.optional(),
  from: z.iso.datetime({ offset: true }).or(z.iso.date()).optional(),
  to: z.iso.datetime({ offset: true }).or(z.iso.date()).optional(),
});
export type PictureQuery = z.input<typeof pictureQuerySchema>;

const count = z.number().int().nonnegative();
const bins = z.record(z.string(), count);

export const crewPictureSchema = z.object({
  tree: z.string(),
  editions: z.array(
    z.object({
      edition: hashSchema,
      /** All calls; everything below is of those that are closed. */
      walks: count,
      closed: count,
      minutes: bins,
      minutesSum: z.number(),
      outcomes: z.record(z.string(), count),
      findings: z.array(z.object({ tree: z.string(), step: z.string(), walks: count, held: count, cameBack: count })),
      steps: z.array(
        z.object({
          tree: z.string(),
          step: z.string(),
          stays: count,
          minutes: bins,
          minutesSum: z.number(),
          couldNot: count,
          tooClose: count,
          acceptedTooClose: count,
          jumpedTo: count,
          steppedBack: count,
          ways: z.record(z.string(), count),
        }),
      ),
    }),
  ),
});

/** How often each fault of a bench was confirmed: what fault weights are learnt from. */
export const confirmedFaultsSchema = z.object({
  faults: z.array(z.object({ bench: z.string(), fault: z.string(), times: count })),
});
export type ConfirmedFaults = z.infer<typeof confirmedFaultsSchema>;
