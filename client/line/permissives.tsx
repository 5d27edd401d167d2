/** The flame interlock as two lists of what must be true, each line with its mark, words, value, ID and cause. */
import { memo } from 'react';
import type { LineView, PermissiveView } from '../../machines/line/view.types.ts';
import { keepUnits } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark, STANDING_SHAPE, STANDING_WORDS } from '../parts/mark.tsx';
import { isDrying } from './idle.ts';

const NONE: readonly PermissiveView[] = [];

const Permissive = memo(function Permissive({ line }: { readonly line: PermissiveView }) {
  return (
    <li className={`check-line permissive ${line.standing}`}>
      <Mark shape={STANDING_SHAPE[line.standing]} />
      <span className="check-main">
        <span>
          {keepUnits(line.text)}
          <span className="hidden-words">, {STANDING_WORDS[line.standing]}</span>
        </span>
        <span className="check-value num">{line.value}</span>
      </span>
      <span className="check-id">{line.id}</span>
      {line.standing !== 'met' && line.cause !== '' && (
        <span className="check-cause">{keepUnits(line.cause)}</span>
      )}
    </li>
  );
});

function PermissiveList({
  title,
  lines,
  open,
}: {
  readonly title: string;
  readonly lines: readonly PermissiveView[];
  readonly open: boolean;
}) {
  const met = lines.filter((line) => line.standing === 'met').length;
  const worst = lines.some((line) => line.standing === 'alarm')
    ? 'alarm'
    : met < lines.length
      ? 'unmet'
      : 'met';
  // A line that is met and has no figure says nothing new: folded away, what counts stays in sight without scrolling.
  const speaking = lines.filter((line) => line.standing !== 'met' || line.value !== '');
  const shown = speaking.length === 0 ? lines : speaking;
  const quiet = lines.filter((line) => !shown.includes(line));
  return (
    // The key makes the list follow the work when the work changes, and stay as the person left it otherwise.
    <details className="permissives" open={open} key={String(open)}>
      <summary className={worst}>
        <Mark shape={STANDING_SHAPE[worst]} />
        <span>{title}</span>
        <span className="num">
          {met} of {lines.length}
          <span className="hidden-words"> met</span>
        </span>
      </summary>
      <ul>
        {shown.map((line) => (
          <Permissive key={line.id + line.text} line={line} />
        ))}
      </ul>
      {quiet.length > 0 && (
        <details className="permissives-met">
          <summary>
            <Mark shape="dot" />
            <span>{quiet.length === 1 ? '1 other, met' : `${quiet.length} others, all met`}</span>
          </summary>
          <ul>
            {quiet.map((line) => (
              <Permissive key={line.id + line.text} line={line} />
            ))}
          </ul>
        </details>
      )}
    </details>
  );
}

/** Solvent and flame play no part while an emulsion order is made; what is not met then is nothing to colour. */
export const interlockInUse = (view: Pick<LineView, 'campaign' | 'orders' | 'interlock'>): boolean =>
  view.interlock.tripped ||
  view.campaign !== null ||
  view.orders.some((order) => order.chosen && order.family === 'cutback');

export function Permissives() {
  const binder = useLive((live) => live.view?.interlock.binder ?? NONE);
  const flame = useLive((live) => live.view?.interlock.flame ?? NONE);
  const drying = useLive((live) => isDrying(live.view?.campaign ?? null));
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  const inUse = useLive((live) => live.view !== null && interlockInUse(live.view));
  return (
    <div className={inUse ? 'permissive-lists' : 'permissive-lists at-rest'}>
      {!inUse && <p className="soft at-rest-words">Not used by this emulsion order; watched all the same.</p>}
      <PermissiveList title="Cutback may flow" lines={binder} open={!drying && !tripped} />
      <PermissiveList title="Burner may light" lines={flame} open={drying && !tripped} />
    </div>
  );
}
