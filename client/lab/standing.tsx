/** What stands in the place of the lab's work while there is none to show: coming, not to be had, nothing yet. */
import type { ReactNode } from 'react';
import { BookWaiting } from '../parts/book-waiting.tsx';
import type { Lab } from './data.ts';

export function LabStanding({ lab, children }: { readonly lab: Lab; readonly children: ReactNode }) {
  if (lab.loading || (lab.error !== null && lab.at === ''))
    return <BookWaiting what="the lab’s book" error={lab.error} onAgain={lab.again} />;
  return (
    <>
      {lab.error !== null && <BookWaiting what="the lab’s book" error={lab.error} onAgain={lab.again} />}
      {children}
    </>
  );
}
