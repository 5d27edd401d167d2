/** What every part of the Lab page stands in: the heading, the parts, and words while the lab's book is not there. */
import type { ReactNode } from 'react';
import { LabTabs } from './tabs.tsx';

export function LabFrame({
  title,
  under,
  children,
}: {
  readonly title: string;
  /** One line under the heading. */
  readonly under?: ReactNode;
  readonly children: ReactNode;
}) {
  return (
    <div className="page lab">
      <div className="page-head">
        <h1>{title}</h1>
        {under !== undefined && <p className="soft">{under}</p>}
      </div>
      <LabTabs />
      {children}
    </div>
  );
}
