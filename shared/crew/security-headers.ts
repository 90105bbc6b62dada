import type { FastifyHelmetOptions } from '@fastify/helmet';

/**
 * What a page from here may do: load its own files and nothing else, run no text as code, be framed by no one. Trees are data, and
 * this keeps them data even if a mistake in the apps let one through as markup.
 */
const CONTENT_SECURITY_POLICY = {
  'default-src': ["'self'"],
  'script-src': ["'self'"],
  'style-src': ["'self'"],
  'img-src': ["'self'", 'blob:', 'data:'],
  'font-src': ["'self'"],
  'connect-src': ["'self'"],
  'worker-src': ["'self'"],
  'manifest-src': ["'self'"],
  'object-src': ["'none'"],
  'base-uri': ["'none'"],
  'frame-ancestors': ["'none'"],
  'form-action': ["'self'"],
};

/** Headers of every answer. No transport security header: this service speaks plain HTTP, and it would lock a browser out of it. */
export const SECURITY_HEADERS: FastifyHelmetOptions = {
  global: true,
  contentSecurityPolicy: { useDefaults: false, directives: CONTENT_SECURITY_POLICY },
  strictTransportSecurity: false,
  referrerPolicy: { policy: 'no-referrer' },
  xFrameOptions: { action: 'deny' },
};
