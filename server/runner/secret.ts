/** The secret of one shift's sampling plans: kept with the saved world alone, never in the record. */
import { randomBytes } from 'node:crypto';

/** 32 bytes, hex. */
export const freshSecret = (): string => randomBytes(32).toString('hex');
