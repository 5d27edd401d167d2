/** The frame of a lesson: question, picture, sliders, what it shows, where its figures come from. */
import type { ReactNode } from 'react';
import { Mark } from '../parts/mark.tsx';

export type Reading = { readonly label: string; readonly value: string; readonly note?: string };

export function Lesson({
  title,
  question,
  picture,
  sliders,
  readings,
  takeAway,
  caution,
  sources,
  table,
}: {
  readonly title: string;
  readonly question: string;
  readonly picture: ReactNode;
  readonly sliders: ReactNode;
  readonly readings: readonly Reading[];
  readonly takeAway: readonly string[];
  readonly caution: string;
  /** Which is standard physics and which a teaching model. */
  readonly sources: string;
  readonly table: ReactNode;
}) {
  return (
    <article className="card lesson">
      <header className="lesson-head">
        <h2>{title}</h2>
        <p>{question}</p>
      </header>
      <div className="lesson-left">{picture}</div>
      <div className="lesson-right stack">
        <div className="sliders">{sliders}</div>
        <dl className="readings" aria-live="polite">
          {readings.map(({ label, value, note }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>
                <span className="num">{value}</span>
                {note !== undefined && <span className="soft reading-note">{note}</span>}
              </dd>
            </div>
          ))}
        </dl>
        <p className="hazard">
          <Mark shape="triangle" />
          <span>{caution}</span>
        </p>
      </div>
      <div className="lesson-foot stack">
        <h3 className="label">What to take from it</h3>
        <ul className="bullets">
          {takeAway.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
        <p className="soft sources">{sources}</p>
        {table}
      </div>
    </article>
  );
}
