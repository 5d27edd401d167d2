/** The replay the page shows, for everything below it. */
import { createContext, useContext } from 'react';
import { useStore } from '../live/store.ts';
import type { ReplayState } from './replay.types.ts';
import type { Replay } from './replay-client.ts';

export const ReplayContext = createContext<Replay | null>(null);

export const useReplayClient = (): Replay => {
  const replay = useContext(ReplayContext);
  if (replay === null) throw new Error('there is no replay around this part of the page');
  return replay;
};

/** A part of what is known of the replay; pick must return a part that exists or a plain value. */
export const useReplay = <P>(pick: (state: ReplayState) => P): P => useStore(useReplayClient().state, pick);
