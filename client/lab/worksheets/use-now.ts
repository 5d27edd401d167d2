/** This console's own clock, for the timed steps of a test: turns once a second while it is needed. */
import { useEffect, useState } from 'react';

export function useNowMs(running: boolean): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    setNow(Date.now());
    if (!running) return;
    const clock = setInterval(() => setNow(Date.now()), 250);
    return () => clearInterval(clock);
  }, [running]);
  return now;
}
