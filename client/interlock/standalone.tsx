/** The flame interlock as one file on a disk: the same charts and the same gate, with nothing behind them. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { PROGRAM } from '../../machines/record/version.ts';
import { CAUTION } from '../shell/caution.ts';
import '../styles/tokens.css';
import '../styles/base.css';
import '../styles/shell.css';
import '../styles/pages.css';
import '../styles/line-lot.css';
import { Desk } from './Desk.tsx';
import { Stories } from './Stories.tsx';
import './desk.css';
import './shared.css';
import './interlock.css';
import './print.css';

function Page() {
  return (
    <div className="desk-frame">
      <header className="desk-head no-print">
        <h1>Flame interlock</h1>
        <p>
          Dryer flame and solvent-bearing binder must never meet. Tick what is so, try what you like, and see
          what the interlock of Patchyard does: these are its own charts and its own gate.
        </p>
        <p className="hazard">
          <Caution />
        </p>
      </header>
      <main className="stack">
        <p className="print-only print-head">
          Flame interlock as ticked on this page, {new Date().toISOString().slice(0, 10)} · {PROGRAM} ·{' '}
          {CAUTION}
        </p>
        <Desk />
        <div className="no-print">
          <Stories />
        </div>
      </main>
      <footer className="soft no-print">
        {CAUTION} Training does not replace licensed instruction. This page works offline and sends nothing
        anywhere.
      </footer>
    </div>
  );
}

function Caution() {
  return (
    <span>
      Nothing here drives a plant, and nothing here is safety-rated. On a real plant flame safeguarding is
      separate, certified and hard-wired, and nobody bypasses it.
    </span>
  );
}

const place = document.getElementById('app');
if (place === null) throw new Error('interlock.html has no element with id "app"');
createRoot(place).render(
  <StrictMode>
    <Page />
  </StrictMode>,
);
