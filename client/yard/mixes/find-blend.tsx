/** Asks the solver for the best blend: bounds of the bins and margin in, shares out, or what stands in the way. */
import { useState } from 'react';
import type { BinFigures } from '../../../machines/yard/mixes/bins.ts';
import type { BlendAnswer, BlendShare } from '../../../machines/yard/mixes/blend.ts';
import type { BlendSheet } from '../../../machines/yard/mixes/blend-sheet.ts';
import { say } from '../../live/said.ts';
import { Mark } from '../../parts/mark.tsx';
import { NumberField } from './number-field.tsx';
import { useKept } from './use-kept.ts';
import { figure } from './words.ts';

type Bounds = { readonly [bin: string]: { readonly fromPct: number; readonly toPct: number } };
type Found = { readonly answer: BlendAnswer } | { readonly because: readonly string[] };

const NO_SERVER = 'The server does not answer: see whether the program still runs.';

const ask = async (body: unknown): Promise<Found> => {
  try {
    const response = await fetch('/api/mixes/blend', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    const value = (await response.json()) as BlendAnswer & { because?: unknown };
    if (response.ok) return { answer: value };
    return { because: Array.isArray(value.because) ? value.because.map(String) : [NO_SERVER] };
  } catch {
    return { because: [NO_SERVER] };
  }
};

const sharesWords = (shares: readonly BlendShare[]): string =>
  shares.map((one) => `bin ${one.bin} ${figure(one.dryPct, 2)} %`).join(', ');

function Mending({ answer }: { readonly answer: Extract<BlendAnswer, { kind: 'does not fit' }> }) {
  const { mend } = answer;
  return (
    <>
      <ul className="mx-misses">
        {answer.outside.map((one) => (
          <li key={one.sieveMm}>
            <Mark shape="triangle" /> {one.sieveMm} mm: {one.side} by {figure(one.byPct, 1)} %
          </li>
        ))}
      </ul>
      {answer.boundsInTheWay && (
        <p>
          It would fit without the bounds set on the bins: raise or lower them.
          {mend === null && ' While they stand no further material mends it.'}
        </p>
      )}
      {mend !== null && (
        <p>
          What would mend it: {figure(mend.sharePct, 0)} % of a material{' '}
          {mend.fromMm === 0 ? `of at most ${mend.toMm} mm` : `between ${mend.fromMm} and ${mend.toMm} mm`},
          of which{' '}
          {mend.grading
            .filter((point) => point.passingPct > 0.5 && point.passingPct < 99.5)
            .map((point) => `${figure(point.passingPct, 0)} % pass ${point.sieveMm} mm`)
            .join(', ') || 'nearly all lies between these two'}
          .
        </p>
      )}
      <p className="soft">The nearest these bins come: {sharesWords(answer.shares)}.</p>
    </>
  );
}

function Answer({
  found,
  onTake,
}: {
  readonly found: Found;
  readonly onTake: (shares: readonly BlendShare[]) => void;
}) {
  const because =
    'because' in found ? found.because : found.answer.kind === 'wrong' ? found.answer.because : null;
  if (because !== null)
    return (
      <ul className="mx-answer warn-words" role="status">
        {because.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    );
  const { answer } = found as { readonly answer: Exclude<BlendAnswer, { kind: 'wrong' }> };
  return (
    <div className="mx-answer stack" role="status">
      {answer.kind === 'fits' ? (
        <p>
          <Mark shape="check" /> <strong>It fits:</strong> {sharesWords(answer.shares)}.{' '}
          {answer.marginPct < answer.askedMarginPct - 0.05
            ? `The widest margin any blend keeps is ${figure(answer.marginPct, 1)} % of the band's width, not the ${figure(answer.askedMarginPct, 1)} % asked for.`
            : `It keeps ${figure(answer.askedMarginPct, 1)} % of the band's width off both edges.`}
        </p>
      ) : (
        <>
          <p>
            <strong>No blend of these bins fits the band.</strong>
          </p>
          <Mending answer={answer} />
        </>
      )}
      <button type="button" className="button" onClick={() => onTake(answer.shares)}>
        Take these shares
      </button>
    </div>
  );
}

export function FindBlend({
  mixId,
  bins,
  blend,
  leanPct,
  onLean,
  onTake,
}: {
  readonly mixId: string;
  readonly bins: readonly BinFigures[];
  readonly blend: BlendSheet;
  readonly leanPct: number;
  readonly onLean: (leanPct: number) => void;
  readonly onTake: (shares: readonly BlendShare[]) => void;
}) {
  const [kept, change] = useKept<{ bounds: Bounds; marginPct: number }>(`mix-bounds.${mixId}`, {
    bounds: {},
    marginPct: 10,
  });
  const [found, setFound] = useState<Found | null>(null);
  const [busy, setBusy] = useState(false);
  const boundsOf = (bin: BinFigures) =>
    kept.bounds[String(bin.bin)] ?? { fromPct: 0, toPct: bin.kind === 'natural sand' ? 0 : 100 };
  const usable = bins.filter((bin) => bin.grading.length > 0);
  const find = async () => {
    setBusy(true);
    const answered = await ask({
      bins: usable.map((bin) => ({
        bin: bin.bin,
        name: bin.name,
        grading: bin.grading,
        ownBinderPct: bin.ownBinderPct,
        ...boundsOf(bin),
      })),
      band: blend.sieves.map(({ sieveMm, fromPct, toPct, targetPct }) => ({
        sieveMm,
        fromPct,
        toPct,
        targetPct,
      })),
      marginPct: kept.marginPct,
    });
    setBusy(false);
    setFound(answered);
    if ('answer' in answered)
      say(answered.answer.kind === 'fits' ? 'A blend that fits was found.' : 'No blend fits the band.');
  };
  return (
    <div className="stack">
      <h3>Find the best blend</h3>
      <div className="mx-bounds">
        {usable.map((bin) => {
          const bounds = boundsOf(bin);
          const set = (more: Partial<typeof bounds>) =>
            change({ bounds: { ...kept.bounds, [String(bin.bin)]: { ...bounds, ...more } } });
          return (
            <fieldset key={bin.bin} className="mx-bound">
              <legend>
                Bin {bin.bin}, {bin.name}
              </legend>
              <NumberField
                label="Least"
                unit="%"
                value={bounds.fromPct}
                max={100}
                onChange={(fromPct) => set({ fromPct })}
              />
              <NumberField
                label="Most"
                unit="%"
                value={bounds.toPct}
                max={100}
                onChange={(toPct) => set({ toPct })}
              />
            </fieldset>
          );
        })}
      </div>
      <div className="mx-pair">
        <NumberField
          label="Margin to both edges, of the band's width"
          unit="%"
          value={kept.marginPct}
          max={50}
          onChange={(marginPct) => change({ marginPct })}
        />
        <NumberField
          label="Target, from coarse edge to fine"
          unit="%"
          value={leanPct}
          max={100}
          hint="50 is the middle of the band"
          onChange={onLean}
        />
      </div>
      <button
        type="button"
        className="button primary"
        aria-busy={busy}
        data-barred={blend.sieves.length === 0}
        onClick={() => void find()}
      >
        {busy ? 'Looking…' : 'Find the best blend'}
      </button>
      {found !== null && <Answer found={found} onTake={onTake} />}
    </div>
  );
}
