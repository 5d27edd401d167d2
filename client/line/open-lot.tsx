/** The open lot filling up, with the samples that fall due along the way. */
import type { LotView } from '../../machines/line/view.types.ts';
import { formatTonnes, percent, plural, share01 } from '../format/format.ts';
import { whyNot } from '../live/may.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { Mark, type Shape } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';

export const SAMPLE_SHAPE: { readonly [K in LotView['samples'][number]['state']]: Shape } = {
  ahead: 'ring',
  due: 'flag',
  taken: 'check',
  missed: 'triangle',
  'not reached': 'ring',
};

/** "Samples: 1 taken, 2 ahead at 7.40 t" in one line. */
export function samplesSentence(lot: LotView): string {
  if (lot.samples.length === 0) return 'No samples asked for.';
  return lot.samples
    .map((sample) => {
      const at = sample.atKg !== null && sample.state === 'ahead' ? ` at ${formatTonnes(sample.atKg)}` : '';
      return `Sample ${sample.n} ${sample.state === 'ahead' ? 'comes' : sample.state}${at}`;
    })
    .join(' · ');
}

export function LotBar({ lot }: { readonly lot: LotView }) {
  return (
    <div
      className="bar lot-bar"
      role="img"
      aria-label={`Lot ${lot.id}: ${formatTonnes(lot.massKg)} of ${formatTonnes(lot.ofKg)}. ${samplesSentence(lot)}`}
    >
      <i style={{ width: percent(share01(lot.massKg, lot.ofKg)) }} />
      {lot.samples.map((sample) =>
        sample.atKg === null ? null : (
          <span
            key={sample.n}
            className={`lot-sample ${sample.state}`}
            style={{ left: percent(share01(sample.atKg, lot.ofKg)) }}
          />
        ),
      )}
    </div>
  );
}

export function OpenLot() {
  const lot = useLive((live) => live.view?.lots.find((each) => each.state === 'open') ?? null);
  const at = useStandpoint();
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  const asked = useCommand();
  if (lot === null)
    return (
      <div className="open-lot" data-guide="lot">
        <h3 className="label">Open lot</h3>
        <p className="soft">{ended ? 'None: the shift has ended.' : 'None. The next batch opens one.'}</p>
      </div>
    );
  const due = lot.samples.find((sample) => sample.state === 'due');
  return (
    <div className="open-lot" data-guide="lot">
      <h3 className="label">Lot {lot.id}</h3>
      <p className="lot-mass num">
        {formatTonnes(lot.massKg)}{' '}
        <span className="soft">
          of {lot.ofKg / 1000} t · {plural(lot.batches.length, 'batch', 'batches')}
        </span>
      </p>
      <LotBar lot={lot} />
      <ul className="lot-samples">
        {lot.samples.map((sample) => (
          <li key={sample.n} className={sample.state}>
            <Mark shape={SAMPLE_SHAPE[sample.state]} />
            Sample {sample.n} {sample.state}
            {sample.state === 'ahead' && sample.atKg !== null ? (
              <span className="num"> {formatTonnes(sample.atKg)}</span>
            ) : (
              ''
            )}
          </li>
        ))}
      </ul>
      {due !== undefined && (
        <button
          type="button"
          className="button wide"
          aria-busy={asked.waiting}
          onClick={() => {
            const because = whyNot('takeSample', at);
            if (because.length > 0) asked.explain(because);
            else void asked.send({ do: 'takeSample' }, `Sample ${due.n} taken.`);
          }}
        >
          Sample {due.n} is taken
        </button>
      )}
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </div>
  );
}
