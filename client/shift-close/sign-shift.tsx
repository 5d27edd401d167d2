/** Beside a shift in a list: countersign its seal, or close it late when it broke off and nobody did. */
import { useState } from 'react';
import { SESSION } from '../live/session.ts';
import { useSource } from '../live/store.ts';
import { SignDialog } from './sign-dialog.tsx';

type Listed = {
  readonly shift: number;
  readonly name: string;
  readonly date: string;
  readonly entries: number;
  readonly sealed: boolean;
};

/** `running`: the newest shift, which the Line page ends. */
export function SignShift({
  row,
  running,
  onDone,
}: {
  readonly row: Listed;
  readonly running: boolean;
  readonly onDone: () => void;
}) {
  const { barred } = useSource();
  const [signing, setSigning] = useState(false);
  if (running || barred !== null || SESSION !== null) return null;
  return (
    <>
      <button type="button" className="button" onClick={() => setSigning(true)}>
        {row.sealed ? 'Countersign…' : 'Close late and seal…'}
        <span className="hidden-words">
          {' '}
          {row.name}, {row.date}
        </span>
      </button>
      {signing && (
        <SignDialog
          row={row}
          what={row.sealed ? 'countersignature' : 'seal'}
          onClose={(done) => {
            setSigning(false);
            if (done) onDone();
          }}
        />
      )}
    </>
  );
}
