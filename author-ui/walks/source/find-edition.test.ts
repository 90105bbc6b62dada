import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { editionHash } from '../../../engine/walk/index.ts';
import { smallEdition } from '../../../engine/walk/testing/small-edition.ts';
import { openPublicationDb } from '../../publish/publication-store.ts';
import { findEdition } from './find-edition.ts';
import { openWalksDb } from './walks-db.ts';

const EDITION = smallEdition();
const HASH = editionHash(EDITION);

test('where the storage of this browser cannot be read the edition is had from the service', async () => {
  const [walks, published] = [openWalksDb('find-walks'), openPublicationDb('find-published')];
  walks.close();
  published.close();
  const asked: string[] = [];
  const fetchPath = async (path: string) => {
    asked.push(path);
    return new Response(JSON.stringify(EDITION));
  };
  expect(await findEdition(HASH, { walks, published, fetchPath })).toEqual(EDITION);
  expect(asked).toEqual([`/editions/${HASH}.json`]);
});

test('what is kept here is asked of nobody, and what nobody has is nowhere', async () => {
  const [walks, published] = [openWalksDb('find-walks-2'), openPublicationDb('find-published-2')];
  await walks.editions.put({ hash: HASH, edition: EDITION });
  const nobody = async (): Promise<Response> => {
    throw new TypeError('Failed to fetch');
  };
  expect(await findEdition(HASH, { walks, published, fetchPath: nobody })).toEqual(EDITION);
  expect(await findEdition('another', { walks, published, fetchPath: nobody })).toBeUndefined();
});
