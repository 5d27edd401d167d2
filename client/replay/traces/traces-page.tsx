/** Recorded readings of any instruments as curves, with one cursor over all of them and the moment of the replay. */
import { useEffect, useMemo, useRef, useState } from 'react';
import { say } from '../../live/said.ts';
import { Mark } from '../../parts/mark.tsx';
import { useReplay, useReplayClient } from '../context.ts';
import { TICKS_PER_S } from '../replay.types.ts';
import type { Trace } from '../worker/traces.ts';
import { Curves, type Zoom } from './curves.tsx';
import { boundsOf, groupsOf, labelOf, type TagGroup } from './groups.ts';
import { plotsOf } from './plots.ts';

/** What a batch is judged by first, for the family of the shift's first mix. */
const firstChoice = (family: 'emulsion' | 'cutback' | undefined): readonly string[] =>
  family === 'cutback'
    ? ['holdingBinKg', 'bucketKg', 'mixC', 'holdingBinC', 'cutbackTankC', 'vapourLelPct']
    : ['hopperKg', 'bucketKg', 'mixC', 'emulsionTankC'];
const COLUMNS = 900;
const MOST_TAGS = 12;
/** Spans offered beside the whole shift, s. */
const SPANS = [
  { s: 3600, words: '1 h' },
  { s: 900, words: '15 min' },
  { s: 120, words: '2 min' },
] as const;

function Choice({
  groups,
  chosen,
  onChange,
}: {
  readonly groups: readonly TagGroup[];
  readonly chosen: readonly string[];
  readonly onChange: (tag: string, on: boolean) => void;
}) {
  return (
    <section className="card replay-choice" aria-label="Instruments">
      {groups.map((group) => (
        <details key={group.name} open={group.tags.some((tag) => chosen.includes(tag))}>
          <summary>{group.name}</summary>
          {group.tags.map((tag) => (
            <label key={tag} className="check">
              <input
                type="checkbox"
                className="hidden-words"
                checked={chosen.includes(tag)}
                onChange={(event) => onChange(tag, event.target.checked)}
              />
              <span className="box">
                <Mark shape="check" />
              </span>
              {labelOf(tag)}
            </label>
          ))}
        </details>
      ))}
    </section>
  );
}

/** The newest curves asked for; older answers that come late are let go. */
function useTrace(tags: readonly string[], zoom: Zoom): Trace | null {
  const replay = useReplayClient();
  const [trace, setTrace] = useState<{ readonly tags: readonly string[]; readonly trace: Trace } | null>(
    null,
  );
  const turn = useRef(0);
  useEffect(() => {
    turn.current += 1;
    const mine = turn.current;
    void replay
      .trace({ tags, fromTick: zoom.fromS * TICKS_PER_S, toTick: zoom.toS * TICKS_PER_S, columns: COLUMNS })
      .then((found) => {
        if (mine === turn.current) setTrace({ tags, trace: found });
      });
    return () => {
      turn.current += 1;
    };
  }, [replay, tags, zoom]);
  return trace?.tags === tags ? trace.trace : null;
}

export function TracesPage() {
  const opened = useReplay((state) => state.opened);
  if (opened === null) return null;
  return <Traces key={opened.manifest.entries.head} />;
}

function Traces() {
  const opened = useReplay((state) => state.opened);
  const at = useReplay((state) => state.at.a);
  const lastS = (opened?.lastTick ?? 1) / TICKS_PER_S;
  const recorded = opened?.tags;
  const [tags, setTags] = useState<readonly string[]>(() =>
    firstChoice(opened?.scenario.mixes[0]?.family).filter((tag) => recorded?.includes(tag)),
  );
  const [zoom, setZoom] = useState<Zoom>({ fromS: 0, toS: lastS });
  const trace = useTrace(tags, zoom);
  const groups = useMemo(() => (opened === null ? [] : groupsOf(opened.scenario, opened.tags)), [opened]);
  const bounds = useMemo(() => (opened === null ? [] : boundsOf(opened.scenario)), [opened]);
  const plots = useMemo(() => plotsOf(tags), [tags]);
  if (opened === null) return null;
  const { startsAt } = opened.manifest.shift;
  const choose = (tag: string, on: boolean) => {
    if (on && tags.length >= MOST_TAGS) say(`At most ${MOST_TAGS} instruments at once.`);
    else setTags(on ? [...tags, tag] : tags.filter((each) => each !== tag));
  };
  /** Around the moment, inside the shift. */
  const around = (spanS: number) => {
    const fromS = Math.max(0, Math.min(at / TICKS_PER_S - spanS / 2, lastS - spanS));
    setZoom({ fromS, toS: Math.min(lastS, fromS + spanS) });
  };
  return (
    <div className="page wide replay-traces">
      <div className="page-head">
        <h1>Traces</h1>
        <p className="soft">
          Press on a curve to go there; drag over a stretch, or choose one around the moment, to see it
          closer.
        </p>
        <fieldset className="row replay-spans" aria-label="Stretch shown">
          <button type="button" className="button" onClick={() => setZoom({ fromS: 0, toS: lastS })}>
            Whole shift
          </button>
          {SPANS.map(({ s, words }) => (
            <button key={s} type="button" className="button" onClick={() => around(s)}>
              {words}
              <span className="hidden-words"> around the moment</span>
            </button>
          ))}
        </fieldset>
      </div>
      <div className="replay-traces-flow">
        <Choice groups={groups} chosen={tags} onChange={choose} />
        <section className="card replay-plots" aria-label="Curves">
          {tags.length === 0 && <p className="empty">Choose an instrument.</p>}
          {tags.length > 0 && trace === null && <p className="empty">Drawing…</p>}
          {trace !== null &&
            plots.map((plot) => (
              <Curves
                key={plot.key}
                plot={plot}
                trace={trace}
                tags={tags}
                bounds={bounds.filter(({ tag }) => plot.tags.includes(tag))}
                startsAt={startsAt}
                zoom={zoom}
                onZoom={setZoom}
              />
            ))}
          {trace !== null && !trace.exact && (
            <p className="soft">
              At this width each column of the picture shows its least and its most; closer, every change is
              drawn.
            </p>
          )}
        </section>
      </div>
    </div>
  );
}
