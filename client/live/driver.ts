/** What stands between the console and whatever answers it: a server, or a fixture in tests. */

import type { Command } from '../../machines/line/commands.ts';
import type { Answer, Change, Hello, RunCommand, State } from '../../machines/live/protocol.ts';
import type { DrillBand } from '../../machines/live/training.ts';

export type Sink = {
  readonly up: () => void;
  readonly down: () => void;
  readonly hello: (hello: Hello) => void;
  readonly state: (state: State) => void;
  readonly change: (change: Change) => void;
  /** Only of the line of a drill. */
  readonly drill: (band: DrillBand) => void;
};

export type Driver = {
  readonly iAm: (person: string) => Promise<Answer>;
  readonly command: (envelope: { readonly id: string; readonly command: Command }) => Promise<Answer>;
  readonly run: (run: RunCommand) => Promise<Answer>;
  readonly again: () => void;
};

export type OpenDriver = (consoleId: string, sink: Sink) => Driver;
