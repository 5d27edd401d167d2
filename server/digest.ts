/** SHA-256 for the record's chain, as the pure core asks for it. */
import { hash } from 'node:crypto';
import type { Digest } from '../machines/record/chain.ts';

export const sha256: Digest = (text) => hash('sha256', text);
