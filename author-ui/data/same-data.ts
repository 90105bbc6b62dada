/** Whether two values of plain data are the same, fields in the same order: as a schema read them, or copied one from the other. */
export const sameData = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
