/** What an opening entry names, so that a record is replayed by what wrote it. */

/** Form of the entries; a new form gets a new number and old ones stay readable. */
export const RECORD_FORMAT = 1;

/** Raised whenever the simulated plant or the line would decide differently from the same inputs. */
export const PHYSICS_VERSION = 3;

export const PROGRAM = 'patchyard 0.1.0';
