/** The seal of the shift that has just ended: its root, the key's fingerprint, who countersigned, and the export. */
import { useState } from 'react';
import { SESSION } from '../live/session.ts';
import { useLive, useSource } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import type { ShiftRow } from './shifts.ts';
import { SignDialog } from './sign-dialog.tsx';
import { useShifts } from './use-shifts.ts';

/** Groups of four, as a fingerprint is compared by eye. */
export const inGroups = (hex: string): string => hex.replace(/(.{4})(?=.)/g, '$1 ');

export function SealFigures({ row }: { readonly row: ShiftRow }) {
  const people = useLive((live) => live.people);
  const nameOf = (id: string) => people.find((person) => person.id === id)?.name ?? id;
  const { seal, root } = row;
  if (seal === null) return null;
  return (
    <dl className="seal-figures">
      <dt>Entries</dt>
      <dd className="num">{row.entries.toLocaleString('en-GB')}</dd>
      <dt>Closed {seal.closed === 'late' ? 'late ' : ''}by</dt>
      <dd>
        {seal.by === null ? 'the stand-in' : nameOf(seal.by.person)}
        {seal.remark === '' ? '' : `: ${seal.remark}`}
      </dd>
      <dt className="wide">Root, one figure over all entries</dt>
      <dd className="num digits wide">{inGroups(root ?? '')}</dd>
      <dt className="wide">Fingerprint of the plant’s key</dt>
      <dd className="num digits wide">{inGroups(seal.key)}</dd>
      <dt>Countersigned</dt>
      <dd>
        {seal.countersigned.length === 0
          ? 'not yet'
          : seal.countersigned
              .map(({ by, remark }) => nameOf(by.person) + (remark === '' ? '' : ` (${remark})`))
              .join(', ')}
      </dd>
    </dl>
  );
}

function Sealed({ row, again }: { readonly row: ShiftRow; readonly again: () => void }) {
  const [signing, setSigning] = useState(false);
  return (
    <section className="seal-card stack" aria-labelledby="seal-label">
      <h2 id="seal-label">
        <Mark shape="check" /> Sealed
      </h2>
      <div className="row">
        <button type="button" className="button" onClick={() => setSigning(true)}>
          Countersign…
        </button>
        <a className="button" href={`/api/shifts/${row.shift}/export`} download>
          Download export
        </a>
      </div>
      <SealFigures row={row} />
      {signing && (
        <SignDialog
          row={row}
          what="countersignature"
          onClose={(done) => {
            setSigning(false);
            if (done) again();
          }}
        />
      )}
    </section>
  );
}

/** Of the running line only: a replayed or practised shift has no seal to show here. */
export function SealCard() {
  const { barred } = useSource();
  return barred !== null || SESSION !== null ? null : <SealOfNewest />;
}

function SealOfNewest() {
  const { rows, failed, again } = useShifts();
  const row = rows?.at(-1);
  if (failed)
    return (
      <div className="seal-card" role="alert">
        <p>Whether the shift is sealed could not be asked.</p>
        <button type="button" className="button" onClick={again}>
          Ask again
        </button>
      </div>
    );
  if (row === undefined || !row.sealed)
    return <p className="seal-card soft">The record of the shift is being sealed…</p>;
  return <Sealed row={row} again={again} />;
}
