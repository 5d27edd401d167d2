/** How much room the disk of the record has left, and words when that is little. */
import { statfsSync } from 'node:fs';

export type Room = { readonly freeBytes: number; readonly totalBytes: number };

/** Null where the system does not tell. */
export const roomFor = (folder: string): Room | null => {
  try {
    const { bavail, blocks, bsize } = statfsSync(folder);
    return { freeBytes: bavail * bsize, totalBytes: blocks * bsize };
  } catch {
    return null;
  }
};

/** A running shift of 8 hours takes about 15 MB until its readings are packed; a backup beside the record as much again. */
export const SHIFT_BYTES = 15e6;
export const LITTLE_ROOM_BYTES = 1e9;
/** Less than a few shifts: the line may come to be held today. */
export const NO_ROOM_BYTES = 100e6;

export type RoomState = 'enough' | 'little' | 'nearly none';

export const roomState = (room: Room | null): RoomState =>
  room === null || room.freeBytes >= LITTLE_ROOM_BYTES
    ? 'enough'
    : room.freeBytes >= NO_ROOM_BYTES
      ? 'little'
      : 'nearly none';
