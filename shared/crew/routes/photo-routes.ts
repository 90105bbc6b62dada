import { createHash } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { hashSchema } from '../../sync/wire/hash-schema.ts';
import { MOST_PHOTO_BYTES, PHOTO_TYPES } from '../../sync/wire/walk-wire.ts';
import type { Hub } from '../hub.ts';
import { refuse } from '../hub-refusal.ts';
import { callerOf } from '../roles/guard.ts';
import { putPhoto, walkPhoto } from '../store/photo-store.ts';
import { readQuery } from './read-request.ts';

const photoQuery = z.strictObject({ walk: z.string().min(1).max(80), photo: z.string().min(1).max(120) });

const startsWith = (body: Buffer, bytes: readonly number[], at = 0): boolean => bytes.every((byte, index) => body[at + index] === byte);

/** The kind of picture by its first bytes: JPEG (ISO/IEC 10918-1: SOI and a marker), PNG (ISO/IEC 15948, 5.2), WebP (RFC 9649). */
export function pictureType(body: Buffer): (typeof PHOTO_TYPES)[number] | undefined {
  if (startsWith(body, [0xff, 0xd8, 0xff])) return 'image/jpeg';
  if (startsWith(body, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png';
  if (startsWith(body, [0x52, 0x49, 0x46, 0x46]) && startsWith(body, [0x57, 0x45, 0x42, 0x50], 8)) return 'image/webp';
  return undefined;
}

export async function servePhotos(app: FastifyInstance, { store, now }: Hub): Promise<void> {
  // Bytes are read as they are on this route alone; everywhere else only JSON is.
  await app.register(async (inner) => {
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser([...PHOTO_TYPES], { parseAs: 'buffer', bodyLimit: MOST_PHOTO_BYTES }, (_request, body, done) => done(null, body));

    inner.put<{ Params: { hash: string } }>('/crew/photos/:hash', { bodyLimit: MOST_PHOTO_BYTES }, async (request, reply) => {
      const query = readQuery(photoQuery, request, reply);
      if (!query) return reply;
      const hash = hashSchema.safeParse(request.params.hash);
      const { body } = request;
      if (!hash.success) return refuse(reply, 'not-understood', { where: 'hash' });
      if (!Buffer.isBuffer(body)) return refuse(reply, 'wrong-type');
      const type = pictureType(body);
      if (!type) return refuse(reply, 'not-a-photo');
      if (createHash('sha256').update(body).digest('hex') !== hash.data) return refuse(reply, 'not-its-hash');
      const put = await putPhoto(store, callerOf(request), { ...query, hash: hash.data }, { type, body }, now());
      return put.ok ? { done: true } : refuse(reply, put.problem);
    });
  });

  app.get<{ Params: { walk: string; photo: string } }>('/crew/walks/:walk/photos/:photo', async (request, reply) => {
    const found = await walkPhoto(store, callerOf(request), request.params.walk, request.params.photo);
    if (!found) return refuse(reply, 'not-there');
    return reply
      .header('cache-control', 'private, max-age=31536000, immutable')
      .header('etag', `"${found.hash}"`)
      .type(found.type)
      .send(Buffer.from(found.body));
  });
}
