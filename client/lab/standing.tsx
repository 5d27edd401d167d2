/** What stands in the place of the lab's work while there is none to show: coming, not to be had, nothing yet. */
import type { ReactNode } from 'react';
import type { Lab } from './data.ts';

export function LabStanding({ lab, children }: { readonly lab: Lab; readonly children: ReactNode }) {
  if (lab.loading)
    return (
      <p className="card empty" role="status">
        Opening the lab’s book…
      </p>
    );
  return (
    <>
      {lab.error !== null && (
        <div className="card failure" role="alert">
          <h2>The lab’s book cannot be read just now</h2>
          {lab.error.map((why) => (
            <p key={why}>{why}</p>
          ))}
          <button type="button" className="button primary" onClick={lab.again}>
            Try again
          </button>
        </div>
      )}
      {children}
    </>
  );
}
