/** The panel that says how the record is kept: its size, its shifts, the last backup, and the room that is left. */
import { useCallback, useEffect, useState } from 'react';
import { plural } from '../format/format.ts';
import { troubleOf } from '../live/trouble.ts';
import { Mark } from '../parts/mark.tsx';
import {
  type Advice,
  adviceOf,
  ageText,
  bytesText,
  countText,
  type Kept,
  readKept,
} from './keeping-words.ts';
import './keeping.css';

const LOOK_EVERY_MS = 60_000;

type Asked = { readonly kept: Kept | null; readonly trouble: string | null };

function useKept(): Asked & { readonly again: () => void } {
  const [asked, setAsked] = useState<Asked>({ kept: null, trouble: null });
  const look = useCallback(async () => {
    try {
      const response = await fetch('/api/keeping');
      if (!response.ok) throw new Error(`the server answered ${response.status}`);
      const kept = readKept(await response.json());
      if (kept === null) throw new Error('the server answered something this page does not know');
      setAsked({ kept, trouble: null });
    } catch (error) {
      const trouble = troubleOf(error);
      setAsked((before) => ({ ...before, trouble }));
    }
  }, []);
  useEffect(() => {
    void look();
    const timer = setInterval(() => void look(), LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [look]);
  return { ...asked, again: () => void look() };
}

export function Keeping() {
  const { kept, trouble, again } = useKept();
  return (
    <section className="card keeping" aria-labelledby="keeping-head">
      <h2 id="keeping-head">Keeping</h2>
      {kept === null && trouble === null && <p className="soft">Asking how the record is kept…</p>}
      {trouble !== null && (
        <p className="keeping-trouble" role="status">
          How the record is kept cannot be told just now. {trouble}.
          <button type="button" className="button" onClick={again}>
            Try again
          </button>
        </p>
      )}
      {kept !== null && (
        <>
          <Figures kept={kept} />
          {adviceOf(kept).map((advice) => (
            <AdviceLine key={advice.what} advice={advice} />
          ))}
        </>
      )}
    </section>
  );
}

function AdviceLine({ advice }: { readonly advice: Advice }) {
  return (
    <p className={`keeping-advice${advice.strong ? ' strong' : ''}`}>
      <Mark shape={advice.strong ? 'triangle' : 'diamond'} />
      {advice.words}
    </p>
  );
}

function Figures({ kept }: { readonly kept: Kept }) {
  const { bytes, freeInsideBytes, entries, shifts, sealed, packed, archived, room, lastBackup, wall } = kept;
  return (
    <dl className="keeping-figures">
      <div>
        <dt>Record</dt>
        <dd className="num">{bytesText(bytes)}</dd>
        <dd className="soft num">
          {countText(entries)} entries
          {freeInsideBytes > 1e6 && <>, {bytesText(freeInsideBytes)} of it free for new ones</>}
        </dd>
      </div>
      <div>
        <dt>Shifts</dt>
        <dd className="num">
          {plural(shifts, 'shift')}, {sealed} sealed
        </dd>
        <dd className="soft num">
          readings of {packed} packed; {archived === 0 ? 'none' : archived} in archive files
        </dd>
      </div>
      <div>
        <dt>Last backup</dt>
        <dd>{lastBackup === null ? 'never' : ageText(lastBackup.wall, wall)}</dd>
        <dd className="soft keeping-path">
          {lastBackup === null
            ? 'patchyard backup --out FILE'
            : `${lastBackup.file}, ${bytesText(lastBackup.bytes)}`}
        </dd>
      </div>
      <div>
        <dt>Free on its disk</dt>
        <dd className="num">{room === null ? 'not known' : bytesText(room.freeBytes)}</dd>
        <dd className="soft num">{room === null ? '' : `of ${bytesText(room.totalBytes)}`}</dd>
      </div>
    </dl>
  );
}
