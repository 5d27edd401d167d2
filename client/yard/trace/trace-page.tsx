/** One trace: what to start from, the picture of the flow, and the lists under it. */
import { useState } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { Traced, TraceFrom } from '../../../machines/yard/trace/traced.types.ts';
import { Mark } from '../../parts/mark.tsx';
import { fromOf, pathOf, queryOf } from './asked.ts';
import { FlowPicture } from './flow-picture.tsx';
import { BatchList, LeftList, MadeOf, PatchList } from './lists.tsx';
import { OpenRecall } from './open-recall.tsx';
import { Search } from './search.tsx';
import { useGot } from './use-got.ts';
import { massWords } from './words.ts';

/** Times of an operator or a scale: the plant's clock. */
function Times({
  from,
  onChange,
}: {
  readonly from: TraceFrom;
  readonly onChange: (from: TraceFrom) => void;
}) {
  if (from.kind !== 'operator' && from.kind !== 'scale') return null;
  if (from.kind === 'scale' && from.id.includes(' ')) return null;
  const set = (name: 'from' | 'to', value: string): void => {
    const { [name]: _old, ...rest } = from;
    onChange(value === '' ? (rest as TraceFrom) : { ...rest, [name]: value });
  };
  return (
    <div className="tr-times">
      {(['from', 'to'] as const).map((name) => (
        <label key={name} className="field">
          <span>{name === 'from' ? 'From, plant’s clock' : 'To'}</span>
          <input
            type="datetime-local"
            value={from[name] ?? ''}
            onChange={(event) => set(name, event.target.value)}
          />
        </label>
      ))}
    </div>
  );
}

const SUMS = (traced: Traced): string =>
  traced.direction === 'backward'
    ? `${massWords(traced.grams)} of mix lie in it`
    : `${massWords(traced.grams)} went on from it`;

export function TracePage() {
  const from = fromOf(useSearch());
  const [, go] = useLocation();
  const [recalling, setRecalling] = useState(false);
  const got = useGot<Traced>(from === null ? null : `/api/trace?${queryOf(from)}`);
  const traced = got.value;
  return (
    <>
      <section className="card stack tr-ask no-print">
        <Search label="Trace from" onChoose={(next) => go(pathOf(next))} />
        {from !== null && <Times from={from} onChange={(next) => go(pathOf(next))} />}
      </section>
      {from === null && (
        <section className="card stack tr-empty">
          <h2>Which patches got it, and what is in this patch?</h2>
          <p>
            Start from a delivery, a batch, a lot, a load, an operator or a scale to find every patch that may
            hold some of it, with tonnes. Start from a patch to go back to its batches, their sensor traces
            and the deliveries they were made of. Every gram is accounted for at every step.
          </p>
        </section>
      )}
      {got.because !== null && (
        <section className="card stack" role="alert">
          <p className="row">
            <Mark shape="triangle" /> <span>{got.because.join(' ')}</span>
          </p>
          <div>
            <button type="button" className="button" onClick={got.again}>
              Try again
            </button>
          </div>
        </section>
      )}
      {got.loading && traced === null && (
        <p className="card soft" role="status">
          Tracing…
        </p>
      )}
      {traced !== null && from !== null && (
        <>
          <section className="card tr-sum">
            <div>
              <h2>{traced.words}</h2>
              <p className="soft">
                {SUMS(traced)}. A tank, a lot and a load count as well mixed; shares are whole grams.
              </p>
            </div>
            <div className="row no-print">
              {traced.direction === 'forward' && (
                <button type="button" className="button" onClick={() => setRecalling(true)}>
                  Recall it…
                </button>
              )}
              <a className="button" href={`/api/trace.csv?${queryOf(from)}`} download>
                CSV
              </a>
              <button type="button" className="button" onClick={() => window.print()}>
                Print
              </button>
            </div>
          </section>
          {traced.edges.length > 0 && <FlowPicture traced={traced} />}
          <MadeOf traced={traced} />
          <PatchList traced={traced} />
          <LeftList traced={traced} />
          <BatchList traced={traced} />
          {recalling && <OpenRecall traced={traced} onClose={() => setRecalling(false)} />}
        </>
      )}
    </>
  );
}
