/** The drill as lanes of time: what the line did, what was expected and when it was done, what went wrong, what was unsafe. */
import { memo, type ReactNode } from 'react';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { toneOf } from '../../ribbon/blocks.ts';
import { capital } from '../words.ts';
import '../../ribbon/ribbon.css';
import type { KeptDebrief } from './types.ts';

const W = 1000;

type Span = { readonly startMs: number; readonly endMs: number };
const xIn = ({ startMs, endMs }: Span, atMs: number): number =>
  W * Math.min(1, Math.max(0, (atMs - startMs) / Math.max(1, endMs - startMs)));

const STANDINGS: { readonly [K in KeptDebrief['expected'][number]['standing']]: readonly [Shape, string] } = {
  'in time': ['check', 'good'],
  late: ['ring', 'warn'],
  'out of order': ['ring', 'warn'],
  missed: ['diamond', 'bad'],
  'not called for': ['dot', 'soft'],
};

type Incident = KeptDebrief['incidents'][number];
/** Something said is over at once; a fault lasts. */
const isMessage = ({ what }: Incident): boolean => what.startsWith('Message from');
const howItEnded = (one: Incident): string => {
  if (one.fromMs === null) return 'did not come';
  if (isMessage(one)) return 'said';
  return one.toMs === null ? 'to the end' : 'put right';
};

/** One lane: its words, its picture over time, and what came of it. */
function Lane({
  words,
  end,
  at,
  children,
}: {
  readonly words: ReactNode;
  readonly end: ReactNode;
  readonly at: number;
  readonly children: ReactNode;
}) {
  return (
    <li className="lane">
      <div className="lane-words">{words}</div>
      <svg className="lane-picture" viewBox={`0 0 ${W} 20`} preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="0" width={W} height="20" className="lane-room" />
        {children}
        <rect x={at - 1} y="0" width="2" height="20" className="lane-at" />
      </svg>
      <div className="lane-end">{end}</div>
    </li>
  );
}

export const Lanes = memo(function Lanes({
  debrief,
  atMs,
}: {
  readonly debrief: KeptDebrief;
  readonly atMs: number;
}) {
  const span = { startMs: debrief.startMs, endMs: debrief.endMs };
  const x = (ms: number) => xIn(span, ms);
  const at = x(atMs);
  const wide = (fromMs: number, toMs: number) => Math.max(2, x(toMs) - x(fromMs));
  const blocks = debrief.ribbon.blocks.filter(
    ({ fromMs, toMs, step }) =>
      toneOf(step) !== null && fromMs < span.endMs && (toMs ?? span.endMs) > span.startMs,
  );
  const trips = debrief.ribbon.marks.filter(
    ({ mark, atMs: when }) => mark === 'trip' && when >= span.startMs,
  );
  return (
    <div className="lanes">
      <h3>The line</h3>
      <ul>
        <Lane
          words="Steps and trips"
          end={trips.length === 0 ? '' : <span className="bad">{trips.length} tripped</span>}
          at={at}
        >
          {blocks.map(({ fromMs, toMs, step }) => (
            <rect
              key={fromMs}
              x={x(fromMs)}
              y="3"
              width={wide(Math.max(fromMs, span.startMs), Math.min(toMs ?? span.endMs, span.endMs))}
              height="14"
              className={toneOf(step) === 'hold' ? 'lane-hold' : `rb-tone rb-${toneOf(step)}`}
            />
          ))}
          {trips.map((one) => (
            <rect key={one.atMs} x={x(one.atMs) - 2} y="0" width="4" height="20" className="lane-bad" />
          ))}
        </Lane>
        <Lane words="What was done" end={<span className="num">{debrief.done.length}</span>} at={at}>
          {debrief.done.map((one, i) => (
            <rect
              // biome-ignore lint/suspicious/noArrayIndexKey: two things may be done in one moment, and the list never changes
              key={i}
              x={x(one.atMs) - 1.5}
              y={one.accepted ? 4 : 0}
              width="3"
              height={one.accepted ? 12 : 20}
              className={one.accepted ? 'lane-done' : 'lane-warn'}
            />
          ))}
        </Lane>
      </ul>
      <h3>Expected</h3>
      <p className="lane-key soft">
        <svg viewBox="0 0 30 14" aria-hidden="true">
          <rect x="0" y="3" width="30" height="8" className="lane-due" />
        </svg>
        time allowed
        <svg viewBox="0 0 30 14" aria-hidden="true">
          <rect x="13" y="0" width="4" height="14" className="lane-met" />
        </svg>
        done
        <svg viewBox="0 0 30 14" aria-hidden="true">
          <rect x="0" y="5" width="30" height="4" className="lane-warn" />
        </svg>
        late by so much
      </p>
      <ul>
        {debrief.expected.map((one) => {
          const [shape, tone] = STANDINGS[one.standing];
          return (
            <Lane
              key={one.id}
              words={one.text}
              end={
                <span className={tone}>
                  <Mark shape={shape} /> {one.standing}
                  {one.of > 0 && (
                    <span className="num soft">
                      {' '}
                      {Math.round(one.points * 10) / 10}/{one.of}
                    </span>
                  )}
                </span>
              }
              at={at}
            >
              {one.fromMs !== null && (
                <>
                  <rect
                    x={x(one.fromMs)}
                    y="5"
                    width={wide(one.fromMs, Math.min(one.dueMs ?? span.endMs, span.endMs))}
                    height="10"
                    className="lane-due"
                  />
                  {one.metMs !== null && one.dueMs !== null && one.metMs > one.dueMs && (
                    <rect
                      x={x(one.dueMs)}
                      y="8"
                      width={wide(one.dueMs, one.metMs)}
                      height="4"
                      className="lane-warn"
                    />
                  )}
                </>
              )}
              {one.metMs !== null && (
                <rect x={x(one.metMs) - 2} y="1" width="4" height="18" className="lane-met" />
              )}
            </Lane>
          );
        })}
      </ul>
      {debrief.incidents.length > 0 && (
        <>
          <h3>What went wrong</h3>
          <ul>
            {debrief.incidents.map((one) => (
              <Lane
                key={one.id}
                words={
                  <>
                    {one.text} <span className="soft">{one.what}</span>
                  </>
                }
                end={<span className="soft">{howItEnded(one)}</span>}
                at={at}
              >
                {one.fromMs !== null && (
                  <rect
                    x={x(one.fromMs)}
                    y="4"
                    width={isMessage(one) ? 4 : wide(one.fromMs, one.toMs ?? span.endMs)}
                    height="12"
                    className="lane-fault"
                  />
                )}
              </Lane>
            ))}
          </ul>
        </>
      )}
      <h3>Unsafe</h3>
      {debrief.unsafe.length === 0 ? (
        <p className="soft">Nothing unsafe was done, tried, or found in the plant.</p>
      ) : (
        <ul>
          {debrief.unsafe.map((one) => (
            <Lane
              key={`${one.atMs}${one.text}`}
              words={one.text}
              end={
                <span className="bad">
                  <Mark shape="triangle" /> {one.kind === 'physical' ? 'in the plant' : capital(one.kind)}
                  {one.times > 1 ? `, ${one.times} times` : ''}
                  {one.fails ? ': not passed' : ''}
                </span>
              }
              at={at}
            >
              <rect x={x(one.atMs) - 2.5} y="0" width="5" height="20" className="lane-bad" />
            </Lane>
          ))}
        </ul>
      )}
    </div>
  );
});
