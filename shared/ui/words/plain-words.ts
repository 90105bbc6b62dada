/** A name as files write it, as people read it: `heat-call` is `heat call`. */
export const plainWords = (slug: string): string => slug.replaceAll('-', ' ');

export const capital = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/** `1 step`, `3 steps`. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
