/** What the lab has to say on every page: samples to be taken, and countdowns of tests under way. */
import { useLocation } from 'wouter';
import { SESSION } from '../live/session.ts';
import { SamplePrompts } from './samples/sample-prompts.tsx';
import { TimerStrip } from './worksheets/timer-strip.tsx';

export function LabStrips() {
  const [path] = useLocation();
  return (
    <>
      {/* The Line page has them beside the lot they are of. */}
      {path !== '/' && <SamplePrompts className="strip" />}
      {SESSION === null && <TimerStrip />}
    </>
  );
}
