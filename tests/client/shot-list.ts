/** Which states of the console are looked at. */
export type Shot = {
  readonly name: string;
  readonly path: string;
  readonly clicks?: readonly string[];
  readonly sizes?: readonly string[];
  readonly guide?: boolean;
};

const MINE = 'me=ada&seat=mine';

export const SHOTS: readonly Shot[] = [
  { name: 'fresh', path: '/?view=fresh', guide: true },
  { name: 'idle', path: `/?view=idle&${MINE}` },
  { name: 'emulsion', path: `/?view=emulsion&${MINE}` },
  { name: 'look', path: `/?view=look&${MINE}` },
  { name: 'cooling', path: `/?view=cooling&${MINE}` },
  { name: 'cautions', path: `/?view=cautions&${MINE}` },
  { name: 'tripped', path: `/?view=tripped&${MINE}` },
  { name: 'alarms', path: '/?view=alarms&me=milo&seat=mine', clicks: ['#alarm-pill'] },
  { name: 'theirs', path: '/?view=emulsion&me=ada&seat=theirs', clicks: ['[data-do="hold"]'] },
  { name: 'asked', path: '/?view=emulsion&me=ada&seat=asked' },
  { name: 'refused', path: `/?view=look&refuse&${MINE}`, clicks: ['[data-do="confirmLook"]'] },
  { name: 'lost', path: `/?view=emulsion&lost&standin&${MINE}` },
  { name: 'empty', path: '/?empty', sizes: ['wide'] },
  { name: 'who', path: '/?view=idle', clicks: ['[data-guide="who"]'] },
  { name: 'tools', path: '/?view=tripped&me=milo&seat=mine', clicks: ['button:text-is("Plant")'] },
  { name: 'help', path: `/?view=idle&${MINE}`, clicks: ['[data-guide="help"]'] },
  { name: 'dump', path: `/?view=look&${MINE}`, clicks: ['[data-do="dump"]'], sizes: ['wide', 'tablet'] },
  {
    name: 'shelve',
    path: '/?view=alarms&me=milo&seat=mine',
    clicks: ['#alarm-pill', 'button:text-is("Shelve…")'],
    sizes: ['wide'],
  },
  { name: 'lots', path: `/lots?view=emulsion&${MINE}` },
  { name: 'records', path: `/records?view=emulsion&${MINE}` },
  { name: 'charts', path: `/charts?view=emulsion&${MINE}` },
];
