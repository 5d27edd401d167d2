/** Beginning a drill: choose one by its card, then for whom and how. */
import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { DrillCard } from '../../machines/live/training.ts';
import type { Person } from '../../machines/scenario/people.schema.ts';
import { useCommand } from '../live/use-command.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { type Begun, linePath, startDrill } from './api.ts';
import { CUTBACK_CAUTIONS, LEARNERS, LEVELS } from './words.ts';

function Level({ level }: { readonly level: number }) {
  return (
    <span className="level">
      <svg viewBox="0 0 60 10" className="level-dots" aria-hidden="true">
        {[1, 2, 3, 4, 5].map((n) => (
          <circle key={n} cx={n * 12 - 6} cy="5" r="3.6" className={n <= level ? 'on' : ''} />
        ))}
      </svg>
      {LEVELS[level] ?? ''}
    </span>
  );
}

export function DrillCardWords({ card }: { readonly card: DrillCard }) {
  return (
    <>
      <span className="drill-name">{card.name}</span>
      <span className="drill-teaches">{card.teaches}</span>
      <span className="drill-foot soft">
        <Level level={card.level} />
        <span className="num">{card.minutes} min</span>
        {card.cutback && (
          <span>
            <Mark shape="triangle" /> cutback
          </span>
        )}
      </span>
    </>
  );
}

export function DrillCards({
  cards,
  chosen,
  onChoose,
}: {
  readonly cards: readonly DrillCard[];
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
}) {
  if (cards.length === 0) return <p className="card">There are no drill files in scenarios/drills.</p>;
  return (
    <ul className="drill-cards">
      {cards.map((card) => (
        <li key={card.id}>
          <button
            type="button"
            className="card drill-card"
            aria-pressed={card.id === chosen}
            onClick={() => onChoose(card.id)}
          >
            <DrillCardWords card={card} />
          </button>
        </li>
      ))}
    </ul>
  );
}

export function Cautions() {
  return (
    <section className="drill-cautions" aria-label="Cautions">
      <h4>
        <Mark shape="triangle" /> Cutback and flame
      </h4>
      <ul className="bullets">
        {CUTBACK_CAUTIONS.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

/** `alone` is a trainee who begins a drill without a trainer. */
export function StartCard({
  card,
  me,
  people,
  alone,
  onStarted,
}: {
  readonly card: DrillCard;
  readonly me: Person;
  readonly people: readonly Person[];
  readonly alone: boolean;
  readonly onStarted: (session: string) => void;
}) {
  const learners = people.filter(({ role }) => LEARNERS.includes(role));
  const first = learners.find(({ role }) => role === 'trainee') ?? learners[0];
  const [trainee, setTrainee] = useState(alone ? me.id : (first?.id ?? me.id));
  const [seed, setSeed] = useState('');
  const [hints, setHints] = useState(true);
  const [frozen, setFrozen] = useState(false);
  const [speed, setSpeed] = useState<1 | 10 | 60>(1);
  const [read, setRead] = useState(false);
  const [, go] = useLocation();
  const asked = useCommand();
  const id = useId();
  const heading = useRef<HTMLHeadingElement>(null);
  // On a narrow screen the form stands below the cards: go where the work goes on.
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    heading.current?.closest('form')?.scrollIntoView({ block: 'nearest' });
  }, []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (card.cutback && !read) {
      asked.explain(['Read the cautions for cutback and tick that you have.']);
      return;
    }
    const number = seed.trim() === '' ? null : Number(seed);
    if (number !== null && (!Number.isInteger(number) || number < 0 || number > 0xffffffff)) {
      asked.explain(['A seed is a whole number from 0 to 4294967295; leave it empty and one is drawn.']);
      return;
    }
    let begun: Begun | null = null;
    const begin = async () => {
      begun = await startDrill({
        drill: card.id,
        trainee,
        hints,
        speed,
        frozen,
        ...(number === null ? {} : { seed: number }),
      });
      return begun.ok ? ({ ok: true } as const) : begun;
    };
    void asked.ask(begin, 'The drill has begun.').then((done) => {
      if (!done || begun === null || !begun.ok) return;
      onStarted(begun.session);
      // A trainee sits down at the line at once; a trainer stays and watches.
      if (alone) location.assign(linePath(begun.session));
      else go(`/training/session/${begun.session}`);
    });
  };
  return (
    <form className="card start-card" onSubmit={submit} noValidate>
      <h3 ref={heading} tabIndex={-1}>
        {card.name}
      </h3>
      <p>{card.teaches}</p>
      {card.cutback && <Cautions />}
      <div className="start-fields">
        {!alone && (
          <div className="field whole">
            <label htmlFor={`${id}-who`}>Trainee</label>
            <select id={`${id}-who`} value={trainee} onChange={(event) => setTrainee(event.target.value)}>
              {learners.map((person) => (
                <option key={person.id} value={person.id}>
                  {person.name}, {person.role}
                </option>
              ))}
            </select>
          </div>
        )}
        <div className="field">
          <label htmlFor={`${id}-seed`}>Seed</label>
          <input
            id={`${id}-seed`}
            type="text"
            inputMode="numeric"
            placeholder="drawn by chance"
            value={seed}
            onChange={(event) => setSeed(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-speed`}>Speed</label>
          <select
            id={`${id}-speed`}
            value={speed}
            onChange={(event) => setSpeed(Number(event.target.value) as 1 | 10 | 60)}
          >
            <option value={1}>as at the plant</option>
            <option value={10}>10 times faster</option>
            <option value={60}>60 times faster</option>
          </select>
        </div>
      </div>
      <p className="soft">The same seed gives the same drill again.</p>
      <Check checked={hints} onChange={setHints} words="Hints allowed (each costs a few points)" />
      {!alone && (
        <Check
          checked={frozen}
          onChange={setFrozen}
          words="Begin frozen, so that there is time to look round"
        />
      )}
      {card.cutback && <Check checked={read} onChange={setRead} words="The cautions above have been read" />}
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <button type="submit" className="button primary" aria-busy={asked.waiting}>
        {asked.waiting ? 'Getting the plant ready…' : alone ? 'Start the drill by myself' : 'Start the drill'}
      </button>
    </form>
  );
}

function Check({
  checked,
  onChange,
  words,
}: {
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly words: string;
}) {
  return (
    <label className="check">
      <input
        className="hidden-words"
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.target.checked)}
      />
      <span className="box">
        <Mark shape="check" />
      </span>
      {words}
    </label>
  );
}
