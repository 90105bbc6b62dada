/** A moment as a tech would say it on the day `now`: `today 14:05`, `yesterday 9:30`, else the date. */
export function momentWords(iso: string, now: Date): string {
  const moment = new Date(iso);
  if (Number.isNaN(moment.getTime())) return iso;
  const clock = `${moment.getHours()}:${String(moment.getMinutes()).padStart(2, '0')}`;
  const day = new Date(moment).setHours(0, 0, 0, 0);
  const days = Math.round((new Date(now).setHours(0, 0, 0, 0) - day) / 86_400_000);
  if (days === 0) return `today ${clock}`;
  if (days === 1) return `yesterday ${clock}`;
  return `${moment.toLocaleDateString(undefined, { year: 'numeric', month: 'short', day: 'numeric' })} ${clock}`;
}
