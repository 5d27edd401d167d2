/** The parts of the Lab page, in the order a lot goes through the lab. */
export const LAB_TABS = [
  { path: '/lots', words: 'This shift' },
  { path: '/lab/lots', words: 'Lots' },
  { path: '/lab/samples', words: 'Samples' },
  { path: '/lab/worksheets', words: 'Worksheets' },
  { path: '/lab/trends', words: 'Trends' },
  { path: '/lab/specifications', words: 'Specifications' },
] as const;
