import { sameData } from '../data/same-data.ts';

/**
 * What a form changed of an entry, on the entry as it stands now: a field that the form left as it was shown is left as it is now, since the
 * text may have gone on under the form.
 */
export function mergeEntry(shown: unknown, wanted: unknown, now: unknown): unknown {
  if (now === undefined) return wanted;
  if (sameData(shown, wanted)) return now;
  if (!isFields(shown) || !isFields(wanted) || !isFields(now)) return wanted;
  // Parts of another kind have other fields: nothing of the one goes with the other.
  if (wanted.kind !== shown.kind || wanted.kind !== now.kind) return wanted;
  const fields = [...new Set([...Object.keys(wanted), ...Object.keys(now)])];
  const merged = fields.map((field) => [field, sameData(shown[field], wanted[field]) ? now[field] : wanted[field]] as const);
  return Object.fromEntries(merged.filter(([, value]) => value !== undefined));
}

const isFields = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null && !Array.isArray(value);
