/** Two moments, or two batches from their start, side by side; each side with a state of its own. */
import { useEffect, useMemo, useState } from 'react';
import { useStore } from '../../live/store.ts';
import { useReplay, useReplayClient } from '../context.ts';
import { TICK_MS } from '../replay.types.ts';
import { BatchPair } from './batch-pair.tsx';
import { batchesIn, startOf } from './batches.ts';
import { DifferenceTable } from './difference-table.tsx';
import { MomentSide } from './side.tsx';

const NO_BLOCKS: readonly never[] = [];

function BatchSelect({
  label,
  value,
  of,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly of: readonly number[];
  readonly onChange: (n: number) => void;
}) {
  return (
    <label className="replay-select">
      {label}
      <select value={value} onChange={(event) => onChange(Number(event.target.value))}>
        {of.map((n) => (
          <option key={n} value={n}>
            batch {n}
          </option>
        ))}
      </select>
    </label>
  );
}

function Batches() {
  const replay = useReplayClient();
  const soFar = useReplay((state) => state.soFar);
  const blocks = soFar?.ribbon.blocks ?? NO_BLOCKS;
  const all = useMemo(() => batchesIn(blocks), [blocks]);
  const [pair, setPair] = useState<readonly [number, number] | null>(null);
  const [a, b] = pair ?? [all[0] ?? 0, all[1] ?? all[0] ?? 0];
  // The pair shown stands at its start from the first look on.
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when there are batches
  useEffect(() => {
    if (all.length > 0) choose([a, b]);
  }, [all.length > 0]);
  const choose = (next: readonly [number, number]) => {
    setPair(next);
    for (const [side, n] of [
      ['a', next[0]],
      ['b', next[1]],
    ] as const) {
      const start = startOf(blocks, n);
      if (start !== null) replay.seek(side, start / TICK_MS);
    }
  };
  if (soFar === null || all.length === 0)
    return <p className="card empty">No batch in this shift, or none worked out yet.</p>;
  return (
    <>
      <div className="row">
        <BatchSelect label="First" value={a} of={all} onChange={(n) => choose([n, b])} />
        <BatchSelect label="Second" value={b} of={all} onChange={(n) => choose([a, n])} />
      </div>
      <BatchPair key={`${a} ${b}`} soFar={soFar} a={a} b={b} />
    </>
  );
}

export function ComparePage() {
  const replay = useReplayClient();
  const a = useStore(replay.sides.a, (live) => live.view);
  const b = useStore(replay.sides.b, (live) => live.view);
  const at = useReplay((state) => state.at);
  const [what, setWhat] = useState<'moments' | 'batches'>('moments');
  const empty = b === null;
  // The second moment begins where the first stands.
  useEffect(() => {
    if (empty) replay.seek('b', replay.state.get().at.a);
  }, [replay, empty]);
  return (
    <div className="page wide">
      <div className="page-head">
        <h1>Compare</h1>
        <fieldset className="row" aria-label="What is compared">
          {(['moments', 'batches'] as const).map((each) => (
            <button
              key={each}
              type="button"
              className="button"
              aria-pressed={what === each}
              onClick={() => setWhat(each)}
            >
              Two {each}
            </button>
          ))}
        </fieldset>
        <p className="soft">The ribbon moves the first moment.</p>
      </div>
      {what === 'batches' && <Batches />}
      <div className="replay-sides">
        <MomentSide side="a">
          <button type="button" className="button" onClick={() => replay.seek('a', at.b)}>
            Go to the second
          </button>
        </MomentSide>
        <MomentSide side="b">
          <button type="button" className="button" onClick={() => replay.seek('b', at.a)}>
            Set to the first
          </button>
        </MomentSide>
      </div>
      {a !== null && b !== null && <DifferenceTable a={a} b={b} />}
    </div>
  );
}
