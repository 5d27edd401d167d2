/** One lesson, and the way to the others. */
import { Link } from 'wouter';
import { AggregateLesson } from './AggregateLesson.tsx';
import { BinderLesson } from './BinderLesson.tsx';
import { DayLesson } from './DayLesson.tsx';
import { useFigures } from './figures.ts';
import { HoodLesson } from './HoodLesson.tsx';
import { isLesson, LESSONS, type LessonId } from './lesson-list.ts';
import '../interlock/shared.css';
import './lessons.css';
import { PurgeLesson } from './PurgeLesson.tsx';

const SHOWN = {
  binder: BinderLesson,
  purge: PurgeLesson,
  hood: HoodLesson,
  day: DayLesson,
  aggregate: AggregateLesson,
} as const satisfies { readonly [K in LessonId]: unknown };

export function LessonsView({ lesson }: { readonly lesson: string }) {
  const found = useFigures();
  const Shown = isLesson(lesson) ? SHOWN[lesson] : null;
  return (
    <div className="page lessons-page">
      <div className="page-head">
        <h1>Vapour and heat</h1>
        <p className="soft">
          {found === null ? 'Reading the figures of this plant…' : `With the figures of ${found.whose}.`}
        </p>
      </div>
      <nav className="part-nav lesson-nav" aria-label="Lessons">
        {LESSONS.map(({ id, name }) => (
          <Link key={id} href={`/interlock/lessons/${id}`} aria-current={id === lesson ? 'page' : undefined}>
            {name}
          </Link>
        ))}
        <Link href="/interlock">Back to the interlock</Link>
      </nav>
      {Shown === null && (
        <section className="card failure">
          <h2>No such lesson</h2>
          <p>Choose one of those named above.</p>
        </section>
      )}
      {Shown !== null && found !== null && <Shown figures={found.figures} />}
      <p className="soft">
        Pictures to learn by, not figures to run a plant by. Training here does not replace licensed
        instruction; local codes and the binder supplier’s sheet come first.
      </p>
    </div>
  );
}
