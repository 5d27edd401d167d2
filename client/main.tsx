/** Starts the console. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Router } from 'wouter';
import { PAGES_BASE } from './live/session.ts';
import { Root } from './root.tsx';
import './styles/tokens.css';
import './styles/base.css';
import './styles/shell.css';
import './styles/header-sizes.css';
import './styles/dialog.css';
import './styles/line.css';
import './styles/line-now.css';
import './styles/line-lot.css';
import './styles/line-bars.css';
import './styles/line-sizes.css';
import './styles/pages.css';
import './styles/guide.css';
import './styles/print.css';
import './shift-close/shift-close.css';

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has no element with id "app"');
createRoot(place).render(
  <StrictMode>
    <Router base={PAGES_BASE}>
      <Root />
    </Router>
  </StrictMode>,
);
