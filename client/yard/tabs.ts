/** The tabs of the Yard page, in the order mix goes through the yard. */
export const YARD_TABS = [
  { path: '/yard/patches', words: 'Patches' },
  { path: '/yard/mixes', words: 'Mixes' },
  { path: '/yard/schedule', words: 'Schedule' },
  { path: '/yard/materials', words: 'Materials' },
  { path: '/yard/bays', words: 'Bays' },
  { path: '/yard/loads', words: 'Loads' },
  { path: '/yard/trace', words: 'Trace' },
] as const;
export type YardPath = (typeof YARD_TABS)[number]['path'];
