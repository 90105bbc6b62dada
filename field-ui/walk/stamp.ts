import type { Stamp } from '../../engine/walk/index.ts';

const two = (value: number): string => String(Math.abs(value)).padStart(2, '0');

/** A moment in ISO 8601 with this device's offset: `2026-01-15T09:30:12.345-05:00`. */
export function localIso(moment: Date): string {
  const offset = -moment.getTimezoneOffset();
  const local = new Date(moment.getTime() + offset * 60_000).toISOString().slice(0, -1);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
}

/** Now, by the wall clock and by one that never runs back. */
export const stampNow = (): Stamp => ({ time: localIso(new Date()), mono: Math.round(performance.now() * 10) / 10 });
