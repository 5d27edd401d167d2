/** A disk that fills up is told at the console before the line has to be held. */
import { expect, it } from 'vitest';
import { LITTLE_ROOM_BYTES, NO_ROOM_BYTES } from '../../server/archive/room.ts';
import { littleRoom, roomOf } from '../../server/runner/room-watch.ts';

const room = (freeBytes: number) => ({ freeBytes, totalBytes: 1e12 });

it('says nothing while there is enough, then more and more urgently', () => {
  expect(littleRoom(null)).toBeNull();
  expect(littleRoom(room(LITTLE_ROOM_BYTES))).toBeNull();
  expect(littleRoom(room(LITTLE_ROOM_BYTES - 1))).toBe(
    'Only 1000 MB are free on the disk of the record. Make room, or archive old shifts (patchyard archive).',
  );
  expect(littleRoom(room(NO_ROOM_BYTES - 1))).toMatch(
    /^Only 100 MB are free .* the line is held when it is full/,
  );
});

it('has nothing to say of a record that is not on a disk', () => {
  expect(roomOf({ where: 'memory' })).toEqual({});
});
