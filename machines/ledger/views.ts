/** What each book shows a console, and what it may be asked; types only. */
import type { LabCommand } from '../lab/commands.ts';
import type { LabView } from '../lab/view.ts';
import type { MixesCommand } from '../yard/mixes/commands.ts';
import type { MixesView } from '../yard/mixes/view.ts';
import type { PatchesCommand } from '../yard/patches/commands.ts';
import type { PatchesView } from '../yard/patches/view.ts';
import type { StockCommand } from '../yard/stock/commands.ts';
import type { StockView } from '../yard/stock/view.ts';

import type { RecallsCommand } from '../yard/trace/recalls/commands.ts';
import type { RecallsView } from '../yard/trace/recalls/view.ts';

export type LedgerViews = {
  recalls: RecallsView;
  lab: LabView;
  patches: PatchesView;
  mixes: MixesView;
  stock: StockView;
};
export type LedgerCommands = {
  recalls: RecallsCommand;
  lab: LabCommand;
  patches: PatchesCommand;
  mixes: MixesCommand;
  stock: StockCommand;
};
