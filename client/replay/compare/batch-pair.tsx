/** Two batches side by side, both from their start: how long each step took and what was weighed. */
import { useState } from 'react';
import type { BatchView } from '../../../machines/line/view.types.ts';
import { formatCountdown, formatKg, shiftClock } from '../../format/format.ts';
import { toneOf } from '../../ribbon/blocks.ts';
import { useReplay, useReplayClient } from '../context.ts';
import { TICK_MS } from '../replay.types.ts';
import type { SoFar } from '../worker/messages.ts';
import { type Stage, stagesOf, startOf, stepRows, weightRows } from './batches.ts';

const STEP_WORDS: { readonly [step: string]: string } = { hold: 'held', wait: 'waiting' };
const wordOf = (step: string): string => STEP_WORDS[step] ?? step;

function Bar({
  stages,
  ofMs,
  words,
}: {
  readonly stages: readonly Stage[];
  readonly ofMs: number;
  readonly words: string;
}) {
  return (
    <div className="replay-batch-bar">
      <span className="num">{words}</span>
      <svg viewBox="0 0 1000 24" preserveAspectRatio="none" aria-hidden="true">
        {stages.map((stage) => (
          <rect
            key={stage.fromMs}
            className={`rb-tone rb-${toneOf(stage.step) ?? 'other'}`}
            x={(stage.fromMs / ofMs) * 1000}
            y={0}
            width={Math.max(1, ((stage.toMs - stage.fromMs) / ofMs) * 1000 - 1)}
            height={24}
          />
        ))}
      </svg>
    </div>
  );
}

const time = (seconds: number | null): string => (seconds === null ? '–' : formatCountdown(seconds));

const change = (a: number | null, b: number | null): string => {
  if (a === null || b === null) return '';
  const by = Math.round(b - a);
  return by === 0 ? '' : `${by > 0 ? '+' : '−'}${formatCountdown(Math.abs(by))}`;
};

const weighed = (part: BatchView['parts'][number] | null): string =>
  part === null ? '–' : `${formatKg(part.weighedKg)} kg of ${formatKg(part.targetKg)}`;

export function BatchPair({
  soFar,
  a,
  b,
}: {
  readonly soFar: SoFar;
  readonly a: number;
  readonly b: number;
}) {
  const replay = useReplayClient();
  const startsAt = useReplay((state) => state.opened?.manifest.shift.startsAt ?? '00:00');
  const [intoS, setIntoS] = useState(0);
  const { blocks } = soFar.ribbon;
  const endMs = soFar.tick * TICK_MS;
  const [first, second] = [stagesOf(blocks, a, endMs), stagesOf(blocks, b, endMs)];
  const longestMs = Math.max(1, first.at(-1)?.toMs ?? 0, second.at(-1)?.toMs ?? 0);
  const sheet = (n: number) => soFar.batches.find((batch) => batch.n === n) ?? null;
  const [sheetA, sheetB] = [sheet(a), sheet(b)];
  const starts = [startOf(blocks, a), startOf(blocks, b)];
  const total = (stages: readonly Stage[]) => (stages.at(-1)?.toMs ?? 0) / 1000;
  const place = (seconds: number) => {
    setIntoS(seconds);
    replay.play(false);
    const [fromA, fromB] = starts;
    if (fromA !== null && fromA !== undefined) replay.seek('a', (fromA + seconds * 1000) / TICK_MS);
    if (fromB !== null && fromB !== undefined) replay.seek('b', (fromB + seconds * 1000) / TICK_MS);
  };
  const label = (n: number, start: number | null | undefined) =>
    `Batch ${n}, ${start === null || start === undefined ? '' : shiftClock(startsAt, start)}`;
  return (
    <section className="card stack" aria-label="Two batches">
      <div className="stack">
        <Bar stages={first} ofMs={longestMs} words={label(a, starts[0])} />
        <Bar stages={second} ofMs={longestMs} words={label(b, starts[1])} />
        <div className="replay-batch-bar">
          <label htmlFor="into-batches" className="num">
            {formatCountdown(intoS)} in
          </label>
          <input
            id="into-batches"
            type="range"
            min={0}
            max={Math.round(longestMs / 1000)}
            value={intoS}
            onChange={(event) => place(Number(event.target.value))}
          />
        </div>
      </div>
      <div className="replay-batch-tables">
        <table className="record">
          <caption>Steps</caption>
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">Batch {a}</th>
              <th scope="col">Batch {b}</th>
              <th scope="col">Change</th>
            </tr>
          </thead>
          <tbody>
            {stepRows(first, second).map((row) => (
              <tr key={row.step}>
                <th scope="row">{wordOf(row.step)}</th>
                <td className="num">{time(row.aS)}</td>
                <td className="num">{time(row.bS)}</td>
                <td className="num">{change(row.aS, row.bS)}</td>
              </tr>
            ))}
            <tr>
              <th scope="row">altogether</th>
              <td className="num">{time(total(first))}</td>
              <td className="num">{time(total(second))}</td>
              <td className="num">{change(total(first), total(second))}</td>
            </tr>
          </tbody>
        </table>
        <table className="record">
          <caption>Weights</caption>
          <thead>
            <tr>
              <th scope="col">Material</th>
              <th scope="col">Batch {a}</th>
              <th scope="col">Batch {b}</th>
            </tr>
          </thead>
          <tbody>
            {weightRows(sheetA, sheetB).map((row) => (
              <tr key={row.material}>
                <th scope="row">{row.material}</th>
                <td className="num">{weighed(row.a)}</td>
                <td className="num">{weighed(row.b)}</td>
              </tr>
            ))}
            <tr>
              <th scope="row">Mix temperature</th>
              <td className="num">{sheetA === null ? '–' : `${sheetA.mixC.toFixed(1)} °C`}</td>
              <td className="num">{sheetB === null ? '–' : `${sheetB.mixC.toFixed(1)} °C`}</td>
            </tr>
            <tr>
              <th scope="row">Mass</th>
              <td className="num">{sheetA === null ? '–' : `${formatKg(sheetA.massKg)} kg`}</td>
              <td className="num">{sheetB === null ? '–' : `${formatKg(sheetB.massKg)} kg`}</td>
            </tr>
          </tbody>
        </table>
      </div>
    </section>
  );
}
