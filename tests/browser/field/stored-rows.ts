import type { Page } from 'playwright';

/** Every row of a table of the field app, as it is stored on the phone. Rows of plain data: a picture does not come along. */
export const storedRows = <Row>(page: Page, table: string): Promise<readonly Row[]> =>
  page.evaluate(
    (name) =>
      new Promise<Row[]>((resolve, reject) => {
        const opening = indexedDB.open('ohmward-field');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction(name).objectStore(name).getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            opening.result.close();
            resolve(all.result);
          };
        };
      }),
    table,
  );
