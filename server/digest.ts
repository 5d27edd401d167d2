/** SHA-256 for the record's chain, as the pure core asks for it. */
import { hash } from 'node:crypto';
import type { Digest } from '../machines/record/chain.ts';

export const sha256: Digest = (text) => hash('sha256', text);

export const sha256OfBytes = (bytes: Uint8Array): string => hash('sha256', bytes);
