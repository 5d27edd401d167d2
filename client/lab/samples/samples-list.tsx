/** All samples of the lots in work: what each is for, where it stands, what is next for it. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { LabLot, LabSample } from '../../../machines/lab/state.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import { holderOf, isTested } from '../today/agenda.ts';
import { personName, SAMPLE_SHAPE, whenWords } from '../words.ts';
import { newSheetPath } from '../worksheets/paths.ts';

const SHOWN = [
  {
    words: 'Waiting for somebody',
    wants: (lot: LabLot, s: LabSample) =>
      s.state === 'due' ||
      s.state === 'missed' ||
      s.state === 'taken' ||
      (s.state === 'logged' && !isTested(lot, s.n)),
  },
  { words: 'All', wants: () => true },
] as const;

export function SamplesList() {
  const lab = useLab();
  const people = useLive((live) => live.people);
  const [all, setAll] = useState(1);
  const rows = lab.view.working.flatMap((lot) =>
    lot.samples.filter((sample) => SHOWN[all]?.wants(lot, sample)).map((sample) => ({ lot, sample })),
  );
  return (
    <LabFrame
      title="Lab"
      under="When a sample falls is drawn when its lot opens, sealed, and shown only when it is due."
    >
      <LabStanding lab={lab}>
        <fieldset className="row" aria-label="Which samples are shown">
          {SHOWN.map(({ words }, i) => (
            <button
              key={words}
              type="button"
              className="button"
              aria-pressed={all === i}
              onClick={() => setAll(i)}
            >
              {words}
            </button>
          ))}
        </fieldset>
        {rows.length === 0 ? (
          <p className="card empty">
            No sample here. A lot’s samples are drawn when its first batch opens it.
          </p>
        ) : (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
          <section className="card lab-table" aria-label="Samples, scrolls sideways" tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <th scope="col">Lot</th>
                  <th scope="col">Sample</th>
                  <th scope="col">Test</th>
                  <th scope="col">State</th>
                  <th scope="col">Taken</th>
                  <th scope="col">With</th>
                  <th scope="col">Next</th>
                </tr>
              </thead>
              <tbody>
                {rows.map(({ lot, sample }) => (
                  <tr key={`${lot.lot}/${sample.n}`}>
                    <td className="num">{lot.lot}</td>
                    <th scope="row" className="num">
                      <Link className="button" href={`/lab/samples/${lot.lot}/${sample.n}`}>
                        {sample.n}
                        <span className="hidden-words"> of lot {lot.lot}</span>
                      </Link>
                    </th>
                    <td>{sample.test}</td>
                    <td>
                      <span
                        className={
                          sample.state === 'due' || sample.state === 'missed'
                            ? 'lot-state wants'
                            : 'lot-state'
                        }
                      >
                        <Mark shape={SAMPLE_SHAPE[sample.state]} />
                        {sample.state}
                      </span>
                    </td>
                    <td>
                      {sample.takenAt === null
                        ? '–'
                        : `${whenWords(sample.takenAt)}${sample.batch === null ? '' : `, batch ${sample.batch}`}`}
                    </td>
                    <td>{sample.state === 'logged' ? personName(people, holderOf(sample)) : '–'}</td>
                    <td>
                      <Next lot={lot} sample={sample} />
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </LabStanding>
    </LabFrame>
  );
}

function Next({ lot, sample }: { readonly lot: LabLot; readonly sample: LabSample }) {
  const of = (
    <span className="hidden-words">
      {' '}
      sample {sample.n} of lot {lot.lot}
    </span>
  );
  if (sample.state === 'logged' && !isTested(lot, sample.n))
    return (
      <Link className="button" href={newSheetPath(lot.lot, sample)}>
        Worksheet{of}
      </Link>
    );
  if (sample.state === 'taken' || sample.state === 'due' || sample.state === 'missed')
    return (
      <Link className="button" href={`/lab/samples/${lot.lot}/${sample.n}`}>
        {sample.state === 'taken' ? 'Log' : sample.state === 'due' ? 'Take' : 'Make good'}
        {of}
      </Link>
    );
  return <span className="soft">{sample.state === 'logged' ? 'tested' : '–'}</span>;
}
