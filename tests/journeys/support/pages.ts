/** The pages of the console; a journey holds this list against the navigation. */
export const PAGES = [
  { path: '/', name: 'Line' },
  { path: '/lots', name: 'Lab' },
  { path: '/yard', name: 'Yard' },
  { path: '/interlock', name: 'Interlock' },
  { path: '/records', name: 'Records' },
  { path: '/charts', name: 'Charts' },
  { path: '/training', name: 'Training' },
] as const;
