/** The flame interlock as two lists of what must be true, each line with its mark, words, value, ID and cause. */
import { memo } from 'react';
import type { PermissiveView } from '../../machines/line/view.types.ts';
import { useLive } from '../live/store.ts';
import { Mark, STANDING_SHAPE, STANDING_WORDS } from '../parts/mark.tsx';

const NONE: readonly PermissiveView[] = [];

const Permissive = memo(function Permissive({ line }: { readonly line: PermissiveView }) {
  return (
    <li className={`check-line permissive ${line.standing}`}>
      <Mark shape={STANDING_SHAPE[line.standing]} />
      <span className="check-text">
        {line.text}
        <span className="hidden-words">, {STANDING_WORDS[line.standing]}</span>
      </span>
      <span className="check-value num">{line.value}</span>
      <span className="check-id">{line.id}</span>
      {line.standing !== 'met' && line.cause !== '' && (
        <span className="check-cause">
          {line.standing === 'alarm' ? 'Alarm' : 'Not met'}: {line.cause}
        </span>
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
        {lines.map((line) => (
          <Permissive key={line.id + line.text} line={line} />
        ))}
      </ul>
    </details>
  );
}

export function Permissives() {
  const binder = useLive((live) => live.view?.interlock.binder ?? NONE);
  const flame = useLive((live) => live.view?.interlock.flame ?? NONE);
  const drying = useLive((live) => live.view !== null && live.view.campaign !== null);
  const tripped = useLive((live) => live.view?.interlock.tripped ?? false);
  return (
    <>
      <PermissiveList title="Solvent binder may flow" lines={binder} open={!drying && !tripped} />
      <PermissiveList title="Burner may light" lines={flame} open={drying && !tripped} />
    </>
  );
}
