/** One lot in the lab: where it stands, what is missing, results against limits, the decision, and everything behind it. */
import { useMemo } from 'react';
import { Link } from 'wouter';
import { applies } from '../../../machines/lab/judge/limits.ts';
import type { LabLot } from '../../../machines/lab/state.ts';
import { propertyOf, sieveOf } from '../../../machines/scenario/lab-tests.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import { formatTonnes } from '../../format/format.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { reportPath } from '../../reports/plants-own.ts';
import { bandOf, judged, specOf } from '../book-like.ts';
import { type Lab, useLab, workingLot } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { PhotoList } from '../photos/photo-list.tsx';
import { GradationPlot } from '../plot/gradation-plot.tsx';
import { LabStanding } from '../standing.tsx';
import { LotStateTag } from '../state-tag.tsx';
import { LOT_STATE_WORDS, personName, propertyWords, valueWords, whenWords } from '../words.ts';
import { newSheetPath, nextToTest } from '../worksheets/paths.ts';
import { Decide } from './decide.tsx';
import { rowsOf } from './judged.ts';
import { Batches, History } from './lot-behind.tsx';
import { LotSamples } from './lot-samples.tsx';
import { ResultsTable } from './results-table.tsx';
import './lots.css';

export function LotPage({ id }: { readonly id: string }) {
  const lab = useLab();
  const lot = workingLot(lab.view, id);
  const short = lab.view.lots.find((one) => one.lot === id) ?? null;
  return (
    <LabFrame title="Lab">
      <LabStanding lab={lab}>
        {lot !== null ? (
          <Lot lab={lab} lot={lot} />
        ) : short !== null ? (
          <section className="card stack">
            <div className="lot-head">
              <h2>Lot {short.lot}</h2>
              <LotStateTag state={short.state} done={short.done} />
            </div>
            <p>
              It was decided long enough ago that only its results are kept at hand; samples, worksheets and
              decisions are in its lot file.
            </p>
            <dl className="results">
              {short.results.map(({ property, value }) => (
                <div key={property}>
                  <dt>{propertyWords(property)}</dt>
                  <dd className="num">{valueWords(property, value)}</dd>
                </div>
              ))}
            </dl>
            <Papers lot={short.lot} decided />
          </section>
        ) : (
          <p className="card empty">
            The lab’s book has no lot {id}. <Link href="/lab/lots">See the lots there are</Link>.
          </p>
        )}
      </LabStanding>
    </LabFrame>
  );
}

const Papers = ({ lot, decided }: { readonly lot: string; readonly decided: boolean }) => (
  <div className="row">
    <a
      className={decided ? 'button primary' : 'button'}
      href={`/api/reports/certificate.pdf?lot=${lot}`}
      target="_blank"
      rel="noreferrer"
    >
      Certificate (PDF)
    </a>
    <Link className="button" href={reportPath('lot', { lot })}>
      Lot file
    </Link>
    <a className="button" href={`/api/lab/labels?lot=${lot}`} target="_blank" rel="noreferrer">
      Labels (PDF)
    </a>
    <Link className="button" href={`/lab/specifications/seal/${lot}`}>
      Seal of its samples
    </Link>
  </div>
);

/** Whether lots are sampled for it: limits on stone and deliveries are judged elsewhere. */
const isSampled = (spec: Specification | null, property: string): boolean => {
  const test = propertyOf(property)?.test;
  return test !== undefined && (spec?.frequencies[test] ?? 0) > 0;
};

function Lot({ lab, lot }: { readonly lab: Lab; readonly lot: LabLot }) {
  const people = useLive((live) => live.people);
  const judgement = useMemo(() => judged(lab.view, lot), [lab.view, lot]);
  const spec = specOf(lab.view, lot);
  const mix = lab.view.mixes.find((one) => one.id === lot.mixId && one.version === lot.mixVersion) ?? null;
  const next = nextToTest(lot);
  const rows =
    judgement === null
      ? []
      : rowsOf(
          judgement,
          // A limit for other stone than this lot's says nothing here.
          (spec?.limits ?? []).filter((limit) => applies(limit, lot.absorptionPct) !== false),
        ).filter(({ property, results }) => results.length > 0 || isSampled(spec, property));
  const gradings = useMemo(() => {
    const sums = new Map<number, { sum: number; n: number }>();
    for (const { property, value, counts } of judgement?.results ?? []) {
      const mm = sieveOf(property);
      if (mm === null || !counts) continue;
      const before = sums.get(mm) ?? { sum: 0, n: 0 };
      sums.set(mm, { sum: before.sum + value, n: before.n + 1 });
    }
    return [...sums].map(([mm, { sum, n }]) => ({ mm, pct: sum / n }));
  }, [judgement]);
  const photos = lot.worksheets.flatMap((sheet) =>
    sheet.photos
      .filter(({ aside }) => aside === null)
      .map(({ sha256, caption, by, at }) => ({ sha256, words: caption, by: personName(people, by), at })),
  );
  return (
    <article className="stack" aria-labelledby="lot-title">
      <section className="card stack">
        <div className="lot-head">
          <h2 id="lot-title">Lot {lot.lot}</h2>
          <LotStateTag state={lot.state} done={lot.done} />
          <span className="soft">
            {mix?.name ?? lot.mixId} <span className="num">version {lot.mixVersion}</span> · {lot.family} ·
            bay {lot.bay} · opened {whenWords(lot.openedAt)}
          </span>
          <span className="lot-mass num">
            {formatTonnes(lot.grams / 1000)}
            {lot.short && <span className="soft"> short</span>}
          </span>
        </div>
        <p>{LOT_STATE_WORDS[lot.state]}</p>
        <div className="lot-stand">
          <div>
            <h3>Missing</h3>
            {lot.missing.length === 0 ? (
              <p className="soft">Nothing.</p>
            ) : (
              <ul className="bullets">
                {lot.missing.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </div>
          <div>
            <h3>Fails</h3>
            {lot.failing.length === 0 ? (
              <p className="soft">
                {lot.verdict === 'pass' ? 'Nothing: it meets its specification.' : 'Nothing so far.'}
              </p>
            ) : (
              <ul className="departures">
                {lot.failing.map((words) => (
                  <li key={words}>
                    <Mark shape="triangle" />
                    {words}
                  </li>
                ))}
              </ul>
            )}
          </div>
        </div>
        {judgement !== null && judgement.contradictions.length > 0 && (
          <div>
            <h3>Mix against limits</h3>
            <ul className="departures">
              {judgement.contradictions.map(({ kind, words }) => (
                <li key={words}>
                  <Mark shape={kind === 'aim' ? 'triangle' : 'diamond'} />
                  {words}
                </li>
              ))}
            </ul>
          </div>
        )}
        <div className="row no-print">
          {next !== null && (
            <Link className="button primary" href={newSheetPath(lot.lot, next)}>
              Next sheet: sample {next.n}, {next.test}
            </Link>
          )}
          <Papers lot={lot.lot} decided={lot.decidedBy !== null} />
        </div>
      </section>
      <Decide lab={lab} lot={lot} />
      <section className="card stack" aria-labelledby="results-head">
        <h3 id="results-head">Results against limits</h3>
        {spec !== null && (
          <p>
            By <Link href="/lab/specifications">{spec.name}</Link>, version {spec.version}; its stone
            {lot.absorptionPct === null
              ? ' has not been tested for the water it drinks'
              : ` drinks ${lot.absorptionPct.toFixed(1)} % water`}
          </p>
        )}
        {judgement === null ? (
          <p className="warn-words">
            Its mix names no specification, so nothing says what it must meet. Name one in the mix and open a
            new shift.
          </p>
        ) : (
          <>
            <ResultsTable lot={lot} rows={rows} />
            {judgement.notes.length > 0 && (
              <ul className="bullets soft">
                {judgement.notes.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </>
        )}
      </section>
      <div className="lot-halves">
        {gradings.length > 0 && (
          <section className="card">
            <GradationPlot title="Mean grading of the lot" passing={gradings} band={bandOf(spec)} />
          </section>
        )}
        <LotSamples lot={lot} />
        <Batches lot={lot} />
        <History lot={lot} />
      </div>
      {photos.length > 0 && (
        <section className="card stack">
          <h3>Photographs</h3>
          <PhotoList photos={photos} />
        </section>
      )}
    </article>
  );
}
