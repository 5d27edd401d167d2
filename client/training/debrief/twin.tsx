/** Vapour and flame drawn together: as it was, and as a model without the interlock would have had it. */
import type { TwinView, VapourSample } from '../../../machines/drills/debrief.types.ts';
import { Mark } from '../../parts/mark.tsx';
import { Plot, type Stretch } from './plot.tsx';

/** Stretches of time over which something holds. */
export const stretchesOf = (
  samples: readonly VapourSample[],
  holds: (sample: VapourSample) => boolean,
): readonly Stretch[] => {
  const found: { from: number; to: number }[] = [];
  let open: { from: number; to: number } | null = null;
  for (const sample of samples) {
    if (!holds(sample)) {
      if (open !== null) open.to = sample.atMs;
      open = null;
    } else if (open === null) {
      open = { from: sample.atMs, to: sample.atMs };
      found.push(open);
    } else open.to = sample.atMs;
  }
  return found;
};

const SOLVENT_FROM_KG = 0.001;
const W = 1000;

function Bars({
  words,
  stretches,
  fromMs,
  toMs,
  tone,
}: {
  readonly words: string;
  readonly stretches: readonly Stretch[];
  readonly fromMs: number;
  readonly toMs: number;
  readonly tone: string;
}) {
  const x = (ms: number) => (W * (ms - fromMs)) / Math.max(1, toMs - fromMs);
  return (
    <li>
      <span className="twin-words">{words}</span>
      <svg
        viewBox={`0 0 ${W} 12`}
        preserveAspectRatio="none"
        className="twin-bar"
        role="img"
        aria-label={`${words}: ${stretches.length === 0 ? 'never' : `${stretches.length} times`}`}
      >
        <rect x="0" y="0" width={W} height="12" className="lane-room" />
        {stretches.map(({ from, to }) => (
          <rect
            key={from}
            x={x(from)}
            y="1"
            width={Math.max(3, x(to) - x(from))}
            height="10"
            className={tone}
          />
        ))}
      </svg>
    </li>
  );
}

export function Twin({
  twin,
  atMs,
  xWords,
  limits,
}: {
  readonly twin: TwinView;
  readonly atMs: number;
  readonly xWords: (ms: number) => string;
  readonly limits: readonly { readonly y: number; readonly words: string }[];
}) {
  const all = [...twin.guarded, ...twin.unguarded];
  const fromMs = Math.min(...all.map((one) => one.atMs));
  const toMs = Math.max(...all.map((one) => one.atMs));
  const points = (samples: readonly VapourSample[]) =>
    samples.map((one) => ({ x: one.atMs, y: one.vapourLelPct }));
  const flame = (one: VapourSample) => one.flame;
  const solvent = (one: VapourSample) => one.solventKg > SOLVENT_FROM_KG;
  const met = stretchesOf(twin.unguarded, (one) => flame(one) && solvent(one));
  const bars = { fromMs, toMs };
  return (
    <section className="card stack" aria-labelledby="twin-h">
      <h2 id="twin-h">Without the interlock</h2>
      <p>{twin.words}</p>
      <p className="soft">The interlock first stepped in here: {twin.because}</p>
      <Plot
        label={`Vapour at the hood: at worst ${twin.guardedWorstLelPct.toFixed(1)} % LEL as it was, ${twin.worstLelPct.toFixed(1)} % LEL without the interlock`}
        unit="vapour at the hood, % LEL"
        series={[
          { name: 'as it was', tone: 'a', points: points(twin.guarded) },
          { name: 'without the interlock (model)', tone: 'b', points: points(twin.unguarded) },
        ]}
        fromX={fromMs}
        toX={toMs}
        shaded={met}
        limits={limits}
        atX={atMs}
        xWords={xWords}
        heightPx={230}
      />
      <ul className="twin-bars">
        <Bars
          words="Dryer flame, as it was"
          stretches={stretchesOf(twin.guarded, flame)}
          tone="lane-flame"
          {...bars}
        />
        <Bars
          words="Dryer flame, without"
          stretches={stretchesOf(twin.unguarded, flame)}
          tone="lane-flame"
          {...bars}
        />
        <Bars
          words="Solvent in the mixer, as it was"
          stretches={stretchesOf(twin.guarded, solvent)}
          tone="lane-solvent"
          {...bars}
        />
        <Bars
          words="Solvent in the mixer, without"
          stretches={stretchesOf(twin.unguarded, solvent)}
          tone="lane-solvent"
          {...bars}
        />
      </ul>
      {twin.flameWithSolventMs !== null && (
        <p className="bad">
          <Mark shape="triangle" /> From {xWords(twin.flameWithSolventMs)} a flame would have burned with
          solvent in the mixer (shaded).
        </p>
      )}
      <p className="soft">{twin.caution}</p>
    </section>
  );
}
