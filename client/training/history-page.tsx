/** One person's attempts: scores over time, each competency, and every attempt. */
import { Link } from 'wouter';
import type { Attempt } from '../../machines/live/training.ts';
import { useLive } from '../live/store.ts';
import { Attempts } from './attempts.tsx';
import { useGot } from './use-got.ts';
import { capital, whenOf } from './words.ts';

const W = 1000;
const H = 120;

/** Scores in order of time, one post an attempt; filled when passed. */
function ScorePosts({ attempts }: { readonly attempts: readonly Attempt[] }) {
  const inOrder = [...attempts].reverse();
  const step = W / Math.max(8, inOrder.length);
  return (
    <figure>
      <svg
        className="score-posts"
        viewBox={`0 0 ${W} ${H}`}
        preserveAspectRatio="none"
        role="img"
        aria-label={`Scores in order: ${inOrder.map(({ score }) => score).join(', ')}`}
      >
        {[0, 25, 50, 75, 100].map((score) => (
          <path key={score} d={`M0 ${H - score * 1.15}H${W}`} className="plot-rule" />
        ))}
        {inOrder.map((one, i) => (
          <rect
            key={one.session}
            x={i * step + step * 0.2}
            y={H - Math.max(1, one.score) * 1.15}
            width={step * 0.6}
            height={Math.max(1, one.score) * 1.15}
            className={one.passed ? 'post passed' : 'post'}
          />
        ))}
      </svg>
      <figcaption className="soft">
        Score of each attempt from {whenOf(inOrder[0]?.endedWall ?? '')} on, 0 to 100. Filled: passed;
        outlined: not passed.
      </figcaption>
    </figure>
  );
}

type Row = { readonly name: string; readonly scores: readonly number[] };

/** Scores by competency in order of time, over attempts in which it was asked for. */
export const byCompetency = (attempts: readonly Attempt[]): readonly Row[] => {
  const rows = new Map<string, number[]>();
  for (const one of [...attempts].reverse())
    for (const { name, score, of } of one.competencies)
      if (of > 0) rows.set(name, [...(rows.get(name) ?? []), score]);
  return [...rows].map(([name, scores]) => ({ name, scores }));
};

const mean = (scores: readonly number[]): number =>
  Math.round(scores.reduce((sum, score) => sum + score, 0) / Math.max(1, scores.length));

export function HistoryPage({ trainee }: { readonly trainee: string }) {
  const me = useLive((live) => live.me);
  const name = useLive((live) => live.people.find(({ id }) => id === trainee)?.name ?? trainee);
  const got = useGot<{ attempts: readonly Attempt[] }>(
    me === null
      ? null
      : `/api/training/history?person=${encodeURIComponent(me.id)}&trainee=${encodeURIComponent(trainee)}`,
  );
  const attempts = got.value?.attempts ?? [];
  const competencies = byCompetency(attempts);
  return (
    <div className="page wide training">
      <div className="page-head">
        <h1>{name}</h1>
        <p className="soft">
          Every drill that was finished. Only {name} and those who lead or audit see this.
        </p>
        <Link href="/training" className="page-back">
          All drills
        </Link>
      </div>
      {me === null && <p className="card">Say who you are at the top of the page.</p>}
      {got.because !== null && <p className="card">{got.because.join(' ')}</p>}
      {got.value !== null && attempts.length === 0 && (
        <p className="card soft">There are no attempts of {name} that you may see.</p>
      )}
      {attempts.length > 0 && (
        <>
          <section className="card stack" aria-labelledby="over-time">
            <h2 id="over-time">Scores over time</h2>
            <ScorePosts attempts={attempts} />
          </section>
          <section className="card stack" aria-labelledby="by-competency">
            <h2 id="by-competency">By competency</h2>
            <div className="attempts">
              <table className="record">
                <thead>
                  <tr>
                    <th scope="col">Competency</th>
                    <th scope="col">First</th>
                    <th scope="col">Latest</th>
                    <th scope="col">Best</th>
                    <th scope="col">Mean</th>
                    <th scope="col">Attempts</th>
                  </tr>
                </thead>
                <tbody>
                  {competencies.map((row) => (
                    <tr key={row.name}>
                      <td>{capital(row.name)}</td>
                      <td className="num">{row.scores[0]}</td>
                      <td className="num">{row.scores.at(-1)}</td>
                      <td className="num">{Math.max(...row.scores)}</td>
                      <td className="num">{mean(row.scores)}</td>
                      <td className="num">{row.scores.length}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          </section>
          <section className="card stack" aria-labelledby="attempts">
            <h2 id="attempts">Attempts</h2>
            <Attempts attempts={attempts} withTrainee={false} />
          </section>
        </>
      )}
    </div>
  );
}
