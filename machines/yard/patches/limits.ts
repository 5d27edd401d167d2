/** How large a list may be; apart from the schemas, so that a console need not carry their library. */

/** Patches of a list in one go; more are answered with words. */
export const MOST_PATCHES = 5000;
