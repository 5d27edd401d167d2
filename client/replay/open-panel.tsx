/** Where an export is chosen: dropped, picked, or one of the shifts this server keeps. Nothing is uploaded. */
import type { ReactNode } from 'react';
import { percent } from '../format/format.ts';
import { useReplay, useReplayClient } from './context.ts';
import { DropZone } from './drop-zone.tsx';

function Opening() {
  const phase = useReplay((state) => state.phase);
  const share = useReplay((state) => state.share);
  const name = useReplay((state) => state.file?.name ?? 'the export');
  const replay = useReplayClient();
  const words = phase === 'fetching' ? `Fetching ${name}` : `Reading ${name}`;
  return (
    <section className="card stack" role="status">
      <h2>{words}…</h2>
      <div className="bar" role="progressbar" aria-label={words} aria-valuenow={Math.floor(share * 100)}>
        <i style={{ width: percent(share) }} />
      </div>
      <div className="row">
        <button type="button" className="button" onClick={() => replay.close()}>
          Stop
        </button>
      </div>
    </section>
  );
}

export function OpenPanel({ shifts }: { readonly shifts: ReactNode }) {
  const replay = useReplayClient();
  const phase = useReplay((state) => state.phase);
  const failed = useReplay((state) => state.failed);
  const name = useReplay((state) => state.file?.name ?? '');
  if (phase === 'fetching' || phase === 'reading')
    return (
      <div className="page">
        <div className="page-head">
          <h1>Replay a shift</h1>
        </div>
        <Opening />
      </div>
    );
  return (
    <div className="page">
      <div className="page-head">
        <h1>Replay a shift</h1>
        <p className="soft">
          See a shift as its operator saw it, go to any moment of it, and check that nothing was changed.
        </p>
      </div>
      {failed !== null && (
        <section className="card replay-verdict bad" role="alert">
          <div>
            <h2>{failed.title}</h2>
            {name !== '' && <p className="soft">{name}</p>}
            <p>{failed.why}</p>
          </div>
        </section>
      )}
      <DropZone onFile={(file) => replay.open(file, file.name)} />
      {shifts}
    </div>
  );
}
