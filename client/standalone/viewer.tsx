/** The replay as one file on a disk: an auditor needs this page, an export, and no server. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { useStore } from '../live/store.ts';
import { Replay } from '../replay/replay-client.ts';
import { ReplayFrame } from '../replay/replay-frame.tsx';
import ReplayWorker from '../replay/worker/main.ts?worker&inline';
import { CAUTION } from '../shell/bottom-bar.tsx';
import '../styles/tokens.css';
import '../styles/base.css';
import '../styles/shell.css';
import '../styles/dialog.css';
import '../styles/line.css';
import '../styles/line-now.css';
import '../styles/line-lot.css';
import '../styles/line-bars.css';
import '../styles/line-sizes.css';
import '../styles/pages.css';

const replay = new Replay(() => new ReplayWorker());

function CloseFile() {
  const isOpen = useStore(replay.state, (state) => state.opened !== null);
  if (!isOpen) return null;
  return (
    <button type="button" className="button" onClick={() => replay.close()}>
      Close file
    </button>
  );
}

function Viewer() {
  return (
    <ReplayFrame
      replay={replay}
      shifts={null}
      leave={<CloseFile />}
      bottom={
        <footer className="bottom">
          <p>{CAUTION} This page works offline and sends nothing anywhere.</p>
        </footer>
      }
      hasLine={false}
    />
  );
}

const place = document.getElementById('app');
if (place === null) throw new Error('viewer.html has no element with id "app"');
createRoot(place).render(
  <StrictMode>
    <Viewer />
  </StrictMode>,
);
