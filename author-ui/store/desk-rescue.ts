import { z } from 'zod';
import type { StoredFile } from './desk-file.ts';

/** A row that a window had not saved when it closed, with the text that it was just then writing. */
export type RescuedRow = { readonly row: StoredFile; readonly inFlight?: string };

/** Where a closing window leaves what it could not save any more: a storage that takes it at once, which the database does not. */
export type DeskRescue = {
  leave(rows: readonly RescuedRow[]): void;
  /** What other windows have left; `done` once it is saved. */
  take(): { readonly rows: readonly RescuedRow[]; readonly done: () => void };
};

const rowsSchema = z.array(
  z.object({
    row: z.object({
      path: z.string(),
      text: z.string(),
      base: z.string().optional(),
      changedAt: z.number(),
      version: z.number(),
      removed: z.literal(true).optional(),
    }),
    inFlight: z.string().optional(),
  }),
);

/** The rescue of one database. Each window has a place of its own, so that two that close at once do not write over each other. */
export function deskRescue(storage: Storage, database: string, window: string): DeskRescue {
  const prefix = `${database} unsaved `;
  return {
    leave(rows) {
      try {
        if (rows.length > 0) storage.setItem(prefix + window, JSON.stringify(rows));
        else storage.removeItem(prefix + window);
      } catch {
        // No room here either: the window has asked before it closed.
      }
    },
    take() {
      try {
        const keys = Array.from({ length: storage.length }, (_, index) => storage.key(index) ?? '').filter((key) => key.startsWith(prefix));
        const rows = keys.flatMap((key) => {
          const read = rowsSchema.safeParse(JSON.parse(storage.getItem(key) ?? '[]'));
          return read.success ? (read.data as RescuedRow[]) : [];
        });
        return { rows, done: () => keys.forEach((key) => void storage.removeItem(key)) };
      } catch {
        return { rows: [], done: () => undefined };
      }
    },
  };
}
