/** Whether the disk of the record has little room left, looked at now and then, in words for whoever is at a console. */
import { type Room, roomFor, roomState } from '../archive/room.ts';
import type { Store } from '../store/store.ts';

const LOOK_EVERY_MS = 10_000;

/** Null while there is enough. */
export const littleRoom = (room: Room | null): string | null => {
  const state = roomState(room);
  if (room === null || state === 'enough') return null;
  const free = `${(room.freeBytes / 1e6).toFixed(0)} MB are free on the disk of the record`;
  return state === 'little'
    ? `Only ${free}. Make room, or archive old shifts (patchyard archive).`
    : `Only ${free}: the line is held when it is full. Make room now.`;
};

const looked = new Map<string, { readonly atMs: number; readonly words: string | null }>();

/** For the view of a run: empty while there is enough room, and where the record is not kept on a disk. */
export const roomOf = ({ where }: Pick<Store, 'where'>): { readonly room?: string } => {
  const nowMs = performance.now();
  let last = looked.get(where);
  if (last === undefined || nowMs - last.atMs > LOOK_EVERY_MS) {
    last = { atMs: nowMs, words: littleRoom(roomFor(where)) };
    looked.set(where, last);
  }
  return last.words === null ? {} : { room: last.words };
};
