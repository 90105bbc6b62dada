import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import canonicalize from 'canonicalize';

/** SHA-256, in hex, of the RFC 8785 canonical JSON of a value that is plain JSON. */
export function canonicalHash(value: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalize(value) ?? 'null')));
}
