import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { type Result, success } from '../../engine/result.ts';
import type { HubClient } from './hub-client.ts';
import type { HubProblem } from './hub-problem.ts';
import type { SyncStore } from './sync-store.ts';

/** The hub will not have this photo, however often it is sent. */
const FOR_GOOD: ReadonlySet<HubProblem['code']> = new Set([
  'too-large',
  'wrong-type',
  'not-a-photo',
  'photo-differs',
  'too-many-photos',
  'not-understood',
  'not-there',
]);

/** Sends every photo that has not been sent, one at a time. Stops at the first problem that is not the photo's own. */
export async function sendPhotos(client: HubClient, store: SyncStore, stopped: () => boolean = () => false): Promise<Result<number, HubProblem>> {
  for (let sent = 0; ; ) {
    const waiting = await store.unsentPhotos(10);
    if (waiting.length === 0 || stopped()) return success(sent);
    for (const { id, walk, picture } of waiting) {
      const hash = bytesToHex(sha256(new Uint8Array(await picture.arrayBuffer())));
      const answer = await client.sendPhoto({ hash, walk, id, picture });
      if (!answer.ok && !FOR_GOOD.has(answer.problem.code)) return answer;
      await store.setPhotoSent(id, answer.ok ? undefined : answer.problem.code);
      sent += 1;
    }
  }
}
