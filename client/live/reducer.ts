/** What the console knows of the line, as a pure fold over what the server says. */
import type { LineView, RibbonView } from '../../machines/line/view.types.ts';
import type {
  Change,
  Hello,
  RibbonChange,
  RunView,
  ShiftChoice,
  State,
} from '../../machines/live/protocol.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { share } from './share.ts';

export type Link = 'connecting' | 'live' | 'lost';

export type Live = {
  readonly link: Link;
  readonly program: string;
  readonly people: readonly Person[];
  readonly me: Person | null;
  /** Shifts that can be opened when the present one has ended. */
  readonly shifts: readonly ShiftChoice[];
  /** Number of the newest change taken in; -1 before the first state. */
  readonly n: number;
  /** A change was missed: whatever comes before the next whole state is left out. */
  readonly gap: boolean;
  readonly view: LineView | null;
  readonly run: RunView | null;
};

export const NOTHING_YET: Live = {
  link: 'connecting',
  program: '',
  people: [],
  me: null,
  shifts: [],
  n: -1,
  gap: false,
  view: null,
  run: null,
};

export type Heard =
  | { readonly heard: 'linkUp' }
  | { readonly heard: 'linkDown' }
  | { readonly heard: 'hello'; readonly hello: Hello }
  | { readonly heard: 'me'; readonly me: Person }
  | { readonly heard: 'state'; readonly state: State }
  | { readonly heard: 'change'; readonly change: Change };

/** The ribbon with its tail replaced, or null when the change builds on blocks we do not have. */
export function foldRibbon(last: RibbonView, change: RibbonChange): RibbonView | null {
  if (change.keepBlocks > last.blocks.length || change.keepMarks > last.marks.length) return null;
  return {
    blocks: [...last.blocks.slice(0, change.keepBlocks), ...change.blocks],
    marks: [...last.marks.slice(0, change.keepMarks), ...change.marks],
  };
}

function foldChange(live: Live, change: Change): Live {
  if (live.view === null || live.gap || change.n <= live.n) return live;
  if (change.n !== live.n + 1) return { ...live, gap: true };
  const ribbon = change.ribbon === null ? live.view.ribbon : foldRibbon(live.view.ribbon, change.ribbon);
  if (ribbon === null) return { ...live, gap: true };
  const view = share(live.view, { ...live.view, ...change.sections, ribbon });
  return { ...live, n: change.n, view, run: change.run === null ? live.run : share(live.run, change.run) };
}

/** Next knowledge. `gap` turns true when the whole state must be asked for again. */
export function hear(live: Live, said: Heard): Live {
  switch (said.heard) {
    case 'linkUp':
      // The whole state follows every connection; changes that come before it build on nothing.
      return { ...live, link: live.view === null ? 'connecting' : live.link };
    case 'linkDown':
      return { ...live, link: live.view === null ? 'connecting' : 'lost' };
    case 'hello':
      return {
        ...live,
        program: said.hello.program,
        people: share(live.people, said.hello.people),
        me: share(live.me, said.hello.me),
        shifts: share(live.shifts, said.hello.shifts),
      };
    case 'me':
      return { ...live, me: said.me };
    case 'state':
      return {
        ...live,
        link: 'live',
        gap: false,
        n: said.state.n,
        view: share(live.view, said.state.view),
        run: share(live.run, said.state.run),
      };
    case 'change':
      return foldChange(live, said.change);
  }
}
