/** A moment as the store keeps it, so that moments sort as text: ISO 8601 in UTC, to the millisecond. Throws a RangeError for what is no moment. */
export const utcText = (time: string): string => new Date(time).toISOString();
