/** The Interlock page in parts: what holds now, cause and effect, proof tests and permits, tanks, lessons. */
import { Link, useRoute } from 'wouter';
import type { TankView } from '../../machines/line/view.types.ts';
import { LESSONS } from '../lessons/lesson-list.ts';
import { HeldCards, TripCard } from '../line/trip-card.tsx';
import { useLive } from '../live/store.ts';
import { HotWork } from './HotWork.tsx';
import './shared.css';
import './interlock.css';
import './print.css';
import { Inhibits } from './Inhibits.tsx';
import { MatrixPart } from './MatrixPart.tsx';
import { ProofTests } from './ProofTests.tsx';
import { Requirements } from './Requirements.tsx';
import { ResetTrip } from './ResetTrip.tsx';
import { Stories } from './Stories.tsx';
import { TankCard } from './TankCard.tsx';

const PARTS = [
  { id: '', name: 'Requirements' },
  { id: 'matrix', name: 'Cause and effect' },
  { id: 'upkeep', name: 'Proof tests and permits' },
  { id: 'tanks', name: 'Tanks and deliveries' },
  { id: 'lessons', name: 'Lessons' },
  { id: 'stories', name: 'Stories' },
] as const;

const NO_TANKS: readonly TankView[] = [];

function Now() {
  return (
    <>
      <h2 className="hidden-words">Now</h2>
      <TripCard />
      <ResetTrip />
      <HeldCards />
      <Requirements />
    </>
  );
}

function Tanks() {
  const tanks = useLive((live) => live.view?.tanks ?? NO_TANKS);
  return (
    <div className="tank-cards">
      {tanks.map((tank) => (
        <TankCard key={tank.id} tank={tank} />
      ))}
    </div>
  );
}

function Lessons() {
  return (
    <ul className="lesson-cards">
      {LESSONS.map(({ id, name, about }) => (
        <li key={id} className="card">
          <h2>{name}</h2>
          <p>{about}.</p>
          <Link href={`/interlock/lessons/${id}`} className="button">
            Open this lesson
          </Link>
        </li>
      ))}
    </ul>
  );
}

export function InterlockView() {
  const [, params] = useRoute('/interlock/:part');
  const part = params?.part ?? '';
  const simulated = useLive((live) => live.run?.simulated ?? true);
  return (
    <div className="page wide interlock-page">
      <div className="page-head">
        <h1>Interlock</h1>
        <p className="soft">
          {simulated ? 'Of the simulated plant' : 'Advice only'}; not a safety-rated controller: real flame
          safeguarding is separate and hard-wired.
        </p>
      </div>
      <nav className="part-nav no-print" aria-label="Parts of the interlock page">
        {PARTS.map(({ id, name }) => (
          <Link
            key={id}
            href={id === '' ? '/interlock' : `/interlock/${id}`}
            aria-current={id === part ? 'page' : undefined}
          >
            {name}
          </Link>
        ))}
      </nav>
      {part === '' && <Now />}
      {part === 'matrix' && <MatrixPart />}
      {part === 'upkeep' && (
        <>
          <div className="upkeep-open">
            <Inhibits />
            <HotWork />
          </div>
          <ProofTests />
        </>
      )}
      {part === 'tanks' && <Tanks />}
      {part === 'lessons' && <Lessons />}
      {part === 'stories' && <Stories />}
      {PARTS.every(({ id }) => id !== part) && (
        <section className="card failure">
          <h2>No such part</h2>
          <p>Choose one of those named above.</p>
        </section>
      )}
    </div>
  );
}
