import { expect, test } from 'vitest';
import { editionHead } from '../../engine/walk/index.ts';
import { hubClient } from '../../shared/sync/hub-client.ts';
import { refreshList } from '../../shared/sync/refresh-list.ts';
import { PhoneInMemory } from './testing/phone-in-memory.ts';
import { editionTitled } from './testing/sample-walks.ts';

const [older, newer] = [editionTitled('Older'), editionTitled('Newer')];

/** A hub that publishes the newer edition while its answer with the older one is on its way. */
function hubOfTwoLists(meanwhile: () => void) {
  let asked = 0;
  return hubClient({
    fetch: async (path) => {
      const edition = [older, newer].find(({ hash }) => path.endsWith(hash));
      if (edition) return new Response(JSON.stringify(edition.edition));
      asked += 1;
      const one = asked === 1 ? older : newer;
      if (asked === 1) {
        meanwhile();
        // Time enough for one that does not wait to be done with all of it.
        for (let n = 0; n < 200; n += 1) await new Promise((resolve) => setImmediate(resolve));
      }
      return new Response(JSON.stringify({ entries: [{ hash: one.hash, ...editionHead(one.edition), from: 'crew' }], withdrawn: [] }));
    },
  });
}

test('of two looks at the list side by side, the one with the older list is not the last to keep it', async () => {
  const phone = new PhoneInMemory();
  let second: Promise<unknown> | undefined;
  const client = hubOfTwoLists(() => {
    second = refreshList(client, phone);
  });
  expect(await refreshList(client, phone)).toMatchObject({ ok: true, value: { fetched: 1 } });
  expect(phone.listed.map(({ hash }) => hash)).toEqual([older.hash]);
  expect(await second).toMatchObject({ ok: true, value: { fetched: 1 } });
  expect(phone.listed.map(({ hash }) => hash)).toEqual([newer.hash]);
  expect([...phone.kept.keys()]).toEqual([older.hash, newer.hash]);
});
