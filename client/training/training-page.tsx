/** The Training page: the trainer watches and begins drills, a trainee works one or practises alone, an auditor looks on. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { Attempt, DrillCard, SessionTile } from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { useLive } from '../live/store.ts';
import { linePath } from './api.ts';
import { Attempts } from './attempts.tsx';
import { DrillCards, DrillCardWords, StartCard } from './start-card.tsx';
import { Tile } from './tile.tsx';
import { useGot } from './use-got.ts';
import { useTiles } from './use-tiles.ts';
import { LEARNERS, TRAINERS, TRAINING_ONLY } from './words.ts';

const SHOWN_ATTEMPTS = 8;

function UnderWay({ tiles, leads }: { readonly tiles: readonly SessionTile[]; readonly leads: boolean }) {
  return (
    <section aria-labelledby="under-way" className="stack">
      <h2 id="under-way">Under way</h2>
      {tiles.length === 0 ? (
        <p className="card soft">No drill is under way{leads ? ': choose one below and begin it' : ''}.</p>
      ) : (
        <ul className="tiles">
          {tiles.map((tile) => (
            <Tile key={tile.session} tile={tile} leads={leads} />
          ))}
        </ul>
      )}
    </section>
  );
}

function OwnDrill({ tile }: { readonly tile: SessionTile }) {
  return (
    <section className="card own-drill" aria-labelledby="own-drill">
      <h2 id="own-drill">{tile.drillName}</h2>
      <p>
        {tile.alone ? 'You are practising alone.' : `${tile.by.name} leads this drill.`} It is {tile.state}.
      </p>
      <a className="button primary" href={linePath(tile.session)}>
        Sit down at the line
      </a>
    </section>
  );
}

function Begin({
  me,
  alone,
  cards,
  limit,
  onStarted,
}: {
  readonly me: Person;
  readonly alone: boolean;
  readonly cards: readonly DrillCard[];
  readonly limit: number;
  readonly onStarted: () => void;
}) {
  const people = useLive((live) => live.people);
  const [chosen, setChosen] = useState<string | null>(null);
  const card = cards.find(({ id }) => id === chosen) ?? null;
  return (
    <section aria-labelledby="begin" className="stack">
      <div className="page-head">
        <h2 id="begin">{alone ? 'Start a drill by yourself' : 'Begin a drill'}</h2>
        <p className="soft">
          {alone
            ? 'Without a trainer you can freeze it and set its pace. It counts in your history.'
            : `Each trainee gets a line of their own; up to ${limit} at once.`}
        </p>
      </div>
      <div className={card === null ? 'begin' : 'begin with-card'}>
        <DrillCards cards={cards} chosen={chosen} onChoose={setChosen} />
        {card !== null && (
          <StartCard key={card.id} card={card} me={me} people={people} alone={alone} onStarted={onStarted} />
        )}
      </div>
    </section>
  );
}

/** Who has no part in drills still sees what is practised here. */
function AllDrills({ cards }: { readonly cards: readonly DrillCard[] }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: nothing else here can be reached, and the page scrolls
    <section aria-labelledby="all-drills" className="stack" tabIndex={0}>
      <h2 id="all-drills">The drills</h2>
      <ul className="drill-cards">
        {cards.map((card) => (
          <li key={card.id} className="card drill-card shown">
            <DrillCardWords card={card} />
          </li>
        ))}
      </ul>
    </section>
  );
}

export function TrainingPage() {
  const me = useLive((live) => live.me);
  const tiles = useTiles(me?.id ?? null);
  const drills = useGot<{ drills: readonly DrillCard[]; sessionsLimit: number }>('/api/training/drills');
  const history = useGot<{ attempts: readonly Attempt[] }>(
    me === null ? null : `/api/training/history?person=${encodeURIComponent(me.id)}`,
    10_000,
  );
  const leads = me !== null && TRAINERS.includes(me.role);
  const learns = me !== null && LEARNERS.includes(me.role);
  const own = tiles?.find((tile) => tile.trainee.id === me?.id) ?? null;
  const others = (tiles ?? []).filter((tile) => leads || tile.trainee.id !== me?.id);
  const attempts = history.value?.attempts ?? [];
  return (
    <div className="page wide training">
      <div className="page-head">
        <h1>Training</h1>
        <p className="soft">{TRAINING_ONLY}</p>
      </div>
      {me === null && (
        <p className="card">
          Say who you are at the top of the page: a trainer leads drills, a trainee works them.
        </p>
      )}
      {me !== null && !learns && me.role !== 'auditor' && (
        <p className="card">
          As {me.role} you have no part in drills: they are worked by {LEARNERS.join(', ')}.
        </p>
      )}
      {own !== null && <OwnDrill tile={own} />}
      {(leads || me?.role === 'auditor') && tiles !== null && <UnderWay tiles={others} leads={leads} />}
      {learns && (leads || own === null) && drills.value !== null && (
        <Begin
          me={me}
          alone={!leads}
          cards={drills.value.drills}
          limit={drills.value.sessionsLimit}
          onStarted={history.again}
        />
      )}
      {!learns && drills.value !== null && <AllDrills cards={drills.value.drills} />}
      {drills.because !== null && (
        <div className="card stack" role="alert">
          <p>The drills cannot be listed just now. {drills.because.join(' ')}</p>
          <button type="button" className="button" onClick={drills.again}>
            Try again
          </button>
        </div>
      )}
      {me !== null && (learns || me.role === 'auditor') && (
        <section aria-labelledby="latest" className="stack">
          <div className="page-head">
            <h2 id="latest">{leads || me.role === 'auditor' ? 'Latest attempts' : 'Your attempts'}</h2>
            {!leads && me.role !== 'auditor' && attempts.length > 0 && (
              <Link href={`/training/history/${me.id}`}>How you have come on</Link>
            )}
          </div>
          {attempts.length === 0 ? (
            <p className="card soft">
              {history.value !== null
                ? 'No drill has been finished yet.'
                : history.because === null
                  ? 'Fetching the attempts…'
                  : history.because.join(' ')}
            </p>
          ) : (
            <div className="card">
              <Attempts
                attempts={attempts.slice(0, SHOWN_ATTEMPTS)}
                withTrainee={leads || me.role === 'auditor'}
              />
            </div>
          )}
        </section>
      )}
    </div>
  );
}
