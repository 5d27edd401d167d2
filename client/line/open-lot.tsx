/** The open lot filling up, with the samples that fall due along the way. */
import type { LotView } from '../../machines/line/view.types.ts';
import { formatTonnes, percent, plural, share01 } from '../format/format.ts';
import { SamplePrompts } from '../lab/samples/sample-prompts.tsx';
import { useLive } from '../live/store.ts';
import { Mark, type Shape } from '../parts/mark.tsx';

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

/** How many samples of the lot stand where, one line a state, the ones that want somebody first. */
const ORDER = ['due', 'missed', 'taken', 'ahead', 'not reached'] as const;

export function OpenLot() {
  const lot = useLive((live) => live.view?.lots.find((each) => each.state === 'open') ?? null);
  const ended = useLive((live) => live.view?.shift.ended ?? false);
  if (lot === null)
    return (
      <div className="open-lot" data-guide="lot">
        <h3 className="label">Open lot</h3>
        <p className="soft">{ended ? 'None: the shift has ended.' : 'None. The next batch opens one.'}</p>
        <SamplePrompts />
      </div>
    );
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
      <ul className="lot-samples" aria-label="Samples of the lot">
        {ORDER.map((state) => {
          const n = lot.samples.filter((sample) => sample.state === state).length;
          return n === 0 ? null : (
            <li key={state} className={state}>
              <Mark shape={SAMPLE_SHAPE[state]} />
              {plural(n, 'sample')} {state}
            </li>
          );
        })}
      </ul>
      <SamplePrompts />
    </div>
  );
}
