/** What the check of the file says: intact, or altered and where; and whether the charts decide the same again. */
import { percent, plural, shiftClock } from '../format/format.ts';
import { Mark } from '../parts/mark.tsx';
import { useReplay, useReplayClient } from './context.ts';
import { formatBytes, longDate } from './dates.ts';
import { type ReplayState, TICK_MS } from './replay.types.ts';
import { standingOf } from './verdict-words.ts';

const SHORT_TEXT = 600;
const short = (text: string): string => (text.length > SHORT_TEXT ? `${text.slice(0, SHORT_TEXT)}…` : text);

function Progress({ words, share }: { readonly words: string; readonly share: number }) {
  return (
    <div className="stack">
      <p>
        {words} <span className="num">{Math.floor(share * 100)} %</span>
      </p>
      <div className="bar" role="progressbar" aria-label={words} aria-valuenow={Math.floor(share * 100)}>
        <i style={{ width: percent(share) }} />
      </div>
    </div>
  );
}

function Findings({ state }: { readonly state: ReplayState }) {
  const verdict = state.check?.is === 'done' ? state.check.verdict : null;
  if (verdict?.result !== 'altered') return null;
  return (
    <section className="card stack">
      <h2>What is wrong, and where</h2>
      <ul className="bullets replay-findings">
        {verdict.findings.map((finding) => (
          <li key={`${finding.kind} ${finding.seq} ${finding.file} ${finding.detail}`}>
            <strong>{finding.kind}</strong>
            {finding.seq !== null && <span className="num"> at entry {finding.seq}</span>}
            {finding.file !== null && <span> in {finding.file}</span>}: {finding.detail}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Sealed({ state }: { readonly state: ReplayState }) {
  const verdict = state.check?.is === 'done' ? state.check.verdict : null;
  if (verdict?.result !== 'intact') return null;
  const { seal } = verdict;
  return (
    <section className="card stack">
      <h2>What was checked</h2>
      <dl className="replay-facts">
        <div>
          <dt>Entries, each against its hash and the one before</dt>
          <dd className="num">{verdict.entries.toLocaleString('en-GB')}</dd>
        </div>
        {seal === null ? (
          <div>
            <dt>Seal</dt>
            <dd>none: the shift had not been sealed when it was exported</dd>
          </div>
        ) : (
          <>
            <div>
              <dt>Root over all entries</dt>
              <dd className="replay-hash">{seal.root}</dd>
            </div>
            <div>
              <dt>Signed by the plant’s key with the fingerprint</dt>
              <dd className="replay-hash">{seal.key}</dd>
            </div>
            <div>
              <dt>Countersigned by</dt>
              <dd>{seal.countersigned.length === 0 ? 'nobody' : seal.countersigned.join(', ')}</dd>
            </div>
          </>
        )}
      </dl>
      {seal !== null && (
        <p className="soft">
          Compare the fingerprint with the one printed on the plant’s reports: whoever wrote a false record
          would have sealed it with another key.
        </p>
      )}
    </section>
  );
}

function Again({ state }: { readonly state: ReplayState }) {
  const replay = useReplayClient();
  const { opened, soFar, stuck } = state;
  if (opened === null) return null;
  const startsAt = opened.manifest.shift.startsAt;
  return (
    <section className="card stack">
      <h2>Decided again</h2>
      {opened.declined !== null && (
        <p>
          Declined. {opened.declined} Entries and readings are shown as they stand; the screens and charts are
          not.
        </p>
      )}
      {opened.declined === null && soFar !== null && !soFar.done && stuck === null && (
        <Progress
          words="The recorded inputs are put to the same charts"
          share={soFar.tick / Math.max(1, opened.lastTick)}
        />
      )}
      {stuck !== null && (
        <p className="warn-words">
          The charts stopped at {shiftClock(startsAt, stuck.tick * TICK_MS)}: {stuck.why}
        </p>
      )}
      {soFar?.done === true && soFar.differing === 0 && (
        <p>
          The charts were run again over every recorded reading and command, and came to the recorded
          decisions at every one of {opened.lastTick.toLocaleString('en-GB')} moments.
        </p>
      )}
      {soFar !== null && soFar.differing > 0 && (
        <>
          <p className="warn-words">
            The charts decided otherwise at {plural(soFar.differing, 'moment')}
            {soFar.differing > soFar.differences.length
              ? `; the first ${soFar.differences.length} are listed`
              : ''}
            .
          </p>
          <ul className="stack">
            {soFar.differences.map((difference) => (
              <li key={difference.tick} className="replay-difference">
                <button
                  type="button"
                  className="button num"
                  onClick={() => replay.seek('a', difference.tick)}
                >
                  {shiftClock(startsAt, difference.tick * TICK_MS)}
                </button>
                <p>
                  Recorded <code>{short(difference.recorded)}</code>
                </p>
                <p>
                  Decided again <code>{short(difference.replayed)}</code>
                </p>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

export function CheckPage() {
  const state = useReplay((all) => all);
  const standing = standingOf(state);
  const { opened, check, file } = state;
  if (opened === null) return null;
  const { manifest } = opened;
  return (
    <div className="page">
      <div className="page-head">
        <h1>Check of this file</h1>
        <p className="soft">
          {file?.name} <span className="num">· {formatBytes(file?.bytes ?? 0)} · stays on this computer</span>
        </p>
      </div>
      <section className={`card replay-verdict ${standing.tone}`} role="status">
        <Mark shape={standing.shape} />
        <div>
          <h2>{standing.short}</h2>
          <p>{standing.sentence}</p>
        </div>
      </section>
      {check?.is === 'running' && (
        <section className="card">
          <Progress words="Every entry is checked against its hash" share={check.share} />
        </section>
      )}
      <Findings state={state} />
      <Sealed state={state} />
      <Again state={state} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: nothing else on this page can be reached, and it scrolls */}
      <section className="card stack" aria-label="What it holds" tabIndex={0}>
        <h2>What it holds</h2>
        <dl className="replay-facts">
          <div>
            <dt>Shift</dt>
            <dd>
              {manifest.shift.name}, {longDate(manifest.shift.date)}, from {manifest.shift.startsAt}
              {opened.ended ? '' : ' (it had not ended when it was exported)'}
            </dd>
          </div>
          <div>
            <dt>Plant</dt>
            <dd>{opened.scenario.plant.name}</dd>
          </div>
          <div>
            <dt>Entries</dt>
            <dd className="num">
              {manifest.entries.first} to {manifest.entries.last},{' '}
              {opened.readingGroups.toLocaleString('en-GB')} of them groups of readings
            </dd>
          </div>
          <div>
            <dt>Hash of the last entry</dt>
            <dd className="replay-hash">{manifest.entries.head}</dd>
          </div>
          <div>
            <dt>Written by</dt>
            <dd>
              {manifest.program}, rules {manifest.physics}
            </dd>
          </div>
        </dl>
      </section>
    </div>
  );
}
