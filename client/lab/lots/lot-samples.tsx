/** The samples of a lot with their worksheets. */
import { Link } from 'wouter';
import type { LabLot } from '../../../machines/lab/state.ts';
import { Mark } from '../../parts/mark.tsx';
import { SAMPLE_SHAPE } from '../words.ts';
import { newSheetPath } from '../worksheets/paths.ts';

export const LotSamples = ({ lot }: { readonly lot: LabLot }) => (
  <section className="card stack" aria-labelledby="samples-head">
    <h3 id="samples-head">Samples</h3>
    <ul className="lot-sample-list">
      {lot.samples.map((sample) => {
        const sheets = lot.worksheets.filter((one) => one.sample === sample.n);
        return (
          <li key={sample.n}>
            <Link className="button num" href={`/lab/samples/${lot.lot}/${sample.n}`}>
              {sample.n}
              <span className="hidden-words">: sample {sample.n}</span>
            </Link>
            <span>
              {sample.test}
              <span className="soft">
                {' '}
                · part {sample.part} of {sample.ofParts}
              </span>
            </span>
            <span
              className={
                sample.state === 'missed' || sample.state === 'due' ? 'lot-state wants' : 'lot-state'
              }
            >
              <Mark shape={SAMPLE_SHAPE[sample.state]} />
              {sample.substitute !== null ? `logged, from the ${sample.substitute.source}` : sample.state}
            </span>
            <span className="sample-sheets">
              {sheets.map((sheet) => (
                <Link key={sheet.id} className="button num" href={`/lab/worksheets/${sheet.id}`}>
                  {sheet.aside === null ? sheet.id : <del>{sheet.id}</del>}
                </Link>
              ))}
              {sheets.length === 0 && sample.state === 'logged' && (
                <Link className="button" href={newSheetPath(lot.lot, sample)}>
                  Worksheet<span className="hidden-words"> for sample {sample.n}</span>
                </Link>
              )}
            </span>
          </li>
        );
      })}
    </ul>
  </section>
);
