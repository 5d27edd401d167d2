/** What is behind a lot: its batches with sheets, traces and replay, and everything that happened to it. */
import { Link } from 'wouter';
import type { LabLot } from '../../../machines/lab/state.ts';
import { useLive } from '../../live/store.ts';
import { reportPath } from '../../reports/plants-own.ts';
import { useLab } from '../data.ts';
import { labelWords, personName, whenWords } from '../words.ts';
import { timelineOf } from './timeline.ts';

export function Batches({ lot }: { readonly lot: LabLot }) {
  const people = useLive((live) => live.people);
  const lab = useLab();
  return (
    <section className="card stack" aria-labelledby="batches-head">
      <h3 id="batches-head">Batches behind it</h3>
      <ul className="lot-batches">
        {lot.batches.map((batch) => (
          <li key={batch}>
            <Link className="button num" href={reportPath('batch', { batch, shift: lot.shift })}>
              {batch}
              <span className="hidden-words">: sheet and traces of batch {batch}</span>
            </Link>
          </li>
        ))}
      </ul>
      <div className="row">
        <a className="button" href={`/replay?shift=${lot.shift}`}>
          Replay the shift
        </a>
        <Link className="button" href={`/lab/trends?lot=${lot.lot}`}>
          Beside other lots
        </Link>
      </div>
      <dl className="facts">
        {Object.entries(lot.labels)
          .filter(([, value]) => value !== '')
          .map(([name, value]) => (
            <div key={name}>
              <dt>{name.charAt(0).toUpperCase() + name.slice(1)}</dt>
              <dd>{labelWords(value, people, lab.view.mixes)}</dd>
            </div>
          ))}
      </dl>
    </section>
  );
}

export function History({ lot }: { readonly lot: LabLot }) {
  const people = useLive((live) => live.people);
  return (
    <section className="card stack" aria-labelledby="events-head">
      <h3 id="events-head">What happened to it</h3>
      <ol className="timeline">
        {timelineOf(lot).map((one, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two things may happen at one second
          <li key={i}>
            <span className="num soft">{whenWords(one.at)}</span>
            <p>
              {one.path === null ? one.words : <Link href={one.path}>{one.words}</Link>}
              {one.by !== '' && <span className="soft"> · {personName(people, one.by)}</span>}
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}
