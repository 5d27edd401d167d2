/** Approve or withdraw a version: who may, what follows, and a reason for the record. */
import { useState } from 'react';
import type { MixVersion } from '../../../machines/yard/mixes/state.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { ApproveFindings } from './approve-findings.tsx';
import type { MixesHere } from './use-mixes.ts';

type Asking = 'approve' | 'withdraw' | null;

export function VersionActions({
  version,
  inForce,
  book,
}: {
  readonly version: MixVersion;
  readonly inForce: number | null;
  readonly book: MixesHere;
}) {
  const [asking, setAsking] = useState<Asking>(null);
  const { id: mix, version: number, family } = version.content;
  const mayApprove = version.state === 'draft' || version.state === 'superseded';
  const mayWithdraw = version.state === 'draft' || version.state === 'approved';
  const open = (what: 'approve' | 'withdraw') => {
    const why = book.whyNot(what === 'approve' ? 'approveMix' : 'withdrawMix');
    if (why !== null) book.asked.explain([why]);
    else setAsking(what);
  };
  const name = `${mix} version ${number}`;
  return (
    <>
      {mayApprove && (
        <button
          type="button"
          className="button"
          data-barred={book.whyNot('approveMix') !== null}
          onClick={() => open('approve')}
        >
          {version.state === 'superseded' ? 'Put in force again' : 'Approve'}
        </button>
      )}
      {mayWithdraw && (
        <button
          type="button"
          className="button quiet"
          data-barred={book.whyNot('withdrawMix') !== null}
          onClick={() => open('withdraw')}
        >
          Withdraw
        </button>
      )}
      {asking === 'approve' && (
        <ConfirmDialog
          title={`Approve ${name}?`}
          words={`A shift opened from the yard's plan then makes ${name}${
            inForce === null ? '' : ` in place of version ${inForce}`
          }. The shift under way keeps the version it was opened with.${
            family === 'cutback' ? ' A cutback mix is approved by somebody else than its author.' : ''
          }`}
          go="Approve"
          onClose={() => setAsking(null)}
          onGo={() => {
            setAsking(null);
            void book.put({ do: 'approveMix', mix, version: number, note: '' }, `Approved ${name}.`);
          }}
        >
          <ApproveFindings mix={version.content} view={book.view} />
        </ConfirmDialog>
      )}
      {asking === 'withdraw' && (
        <ConfirmDialog
          title={`Withdraw ${name}?`}
          words={
            version.state === 'approved'
              ? `No shift opened from the yard's plan makes it any more. ${
                  version.tookPlaceOf === null
                    ? 'No other version is then in force.'
                    : `Version ${version.tookPlaceOf} is then in force again.`
                }`
              : 'The draft stays in the record but cannot be approved any more.'
          }
          go="Withdraw"
          danger
          needsReason
          onClose={() => setAsking(null)}
          onGo={(reason) => {
            setAsking(null);
            void book.put({ do: 'withdrawMix', mix, version: number, reason }, `Withdrew ${name}.`);
          }}
        />
      )}
    </>
  );
}
