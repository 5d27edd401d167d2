/** Attempts as a table, the newest first. */
import { Link } from 'wouter';
import type { Attempt } from '../../machines/live/training.ts';
import { Mark } from '../parts/mark.tsx';
import { whenOf } from './words.ts';

export function Attempts({
  attempts,
  withTrainee,
}: {
  readonly attempts: readonly Attempt[];
  readonly withTrainee: boolean;
}) {
  return (
    <div className="attempts">
      <table className="record">
        <thead>
          <tr>
            <th scope="col">When</th>
            {withTrainee && <th scope="col">Trainee</th>}
            <th scope="col">Drill</th>
            <th scope="col">Score</th>
            <th scope="col">Unsafe</th>
            <th scope="col">Seed</th>
            <th scope="col">
              <span className="hidden-words">Debrief</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {attempts.map((one) => (
            <tr key={one.session}>
              <td className="num nowrap">{whenOf(one.endedWall)}</td>
              {withTrainee && (
                <td>
                  <Link href={`/training/history/${one.trainee.id}`}>{one.trainee.name}</Link>
                </td>
              )}
              <td>
                {one.drillName}
                {one.from !== null && <span className="soft"> (from an earlier moment)</span>}
              </td>
              <td className="num nowrap">
                <span className={one.passed ? 'verdict' : 'verdict bad'}>
                  <Mark shape={one.passed ? 'check' : 'diamond'} /> {one.score}
                  <span className="soft"> {one.passed ? 'passed' : 'not passed'}</span>
                </span>
              </td>
              <td className="num">{one.unsafe === 0 ? 'none' : one.unsafe}</td>
              <td className="num">{one.seed}</td>
              <td>
                <Link className="button" href={`/training/debrief/${one.session}`}>
                  Debrief
                  <span className="hidden-words">
                    {' '}
                    of {one.drillName}, {whenOf(one.endedWall)}
                  </span>
                </Link>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
