/** The drills under way, as the server tells of them; null until it has. */
import { useEffect, useState } from 'react';
import { io } from 'socket.io-client';
import type { SessionTile } from '../../machines/live/training.ts';
import { CONSOLE_ID } from '../live/line.ts';

export function useTiles(person: string | null): readonly SessionTile[] | null {
  const [tiles, setTiles] = useState<readonly SessionTile[] | null>(null);
  useEffect(() => {
    setTiles(null);
    if (person === null) return;
    const socket = io('/training', { reconnectionDelay: 500, reconnectionDelayMax: 3000 });
    socket.on('connect', () => socket.emit('iAm', { person, console: CONSOLE_ID }, () => undefined));
    socket.on('sessions', setTiles);
    return () => {
      socket.removeAllListeners();
      socket.disconnect();
    };
  }, [person]);
  return tiles;
}
