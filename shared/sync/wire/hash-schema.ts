import { z } from 'zod';

/** A SHA-256 in lower-case hex. */
export const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);
