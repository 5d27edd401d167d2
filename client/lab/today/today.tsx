/** The quality officer's day at a glance: what is due now, what is missing for which lot, what is to be discarded, who has what. */
import { Link } from 'wouter';
import type { LabTask, SamplePrompt } from '../../../machines/lab/view.ts';
import { useLive } from '../../live/store.ts';
import { batchRanges } from '../../lots/ranges.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { useLab } from '../data.ts';
import { labNow } from '../now-words.ts';
import { LabStanding } from '../standing.tsx';
import { LotStateTag } from '../state-tag.tsx';
import { personName, whenWords } from '../words.ts';
import { newSheetPath } from '../worksheets/paths.ts';
import { type AgendaSample, agendaOf } from './agenda.ts';
import { MixWarnings } from './mix-warnings.tsx';

const PROMPT_SHAPE: { readonly [K in SamplePrompt['level']]: Shape } = {
  due: 'flag',
  overdue: 'triangle',
  missed: 'triangle',
  log: 'dot',
};
const PROMPT_GO: { readonly [K in SamplePrompt['level']]: string } = {
  due: 'Take it',
  overdue: 'Take it',
  missed: 'Make good',
  log: 'Log it',
};
const TASK_SHAPE: { readonly [K in LabTask['what']]: Shape } = {
  worksheet: 'ring',
  decide: 'check',
  concession: 'diamond',
  retest: 'ring',
  discard: 'ring',
  hold: 'flag',
  plan: 'triangle',
};
const WANTS: readonly LabTask['what'][] = ['hold', 'plan', 'concession'];
const DECIDING: readonly LabTask['what'][] = ['decide', 'hold', 'concession', 'plan'];

const nameOf = ({ lot, sample }: AgendaSample): string => `Lot ${lot}, sample ${sample.n}, ${sample.test}`;

/** Samples to be logged, a lot at a time: they are logged one after the other. */
function logsByLot(prompts: readonly SamplePrompt[]) {
  const lots = new Map<string, { lot: string; samples: number[]; urgent: boolean }>();
  for (const { lot, sample, level, urgency } of prompts) {
    if (level !== 'log') continue;
    const before = lots.get(lot) ?? { lot, samples: [], urgent: false };
    lots.set(lot, { lot, samples: [...before.samples, sample], urgent: before.urgent || urgency > 0 });
  }
  return [...lots.values()];
}

export function LabNow() {
  const { view, at, loading } = useLab();
  if (loading) return '\u00a0';
  return labNow(view, agendaOf(view.working, at).toTest.length);
}

export function Today() {
  const lab = useLab();
  const people = useLive((live) => live.people);
  const { view } = lab;
  const agenda = agendaOf(view.working, lab.at);
  const prompts = view.prompts.filter(({ level }) => level !== 'log');
  const toLog = logsByLot(view.prompts);
  const decide = view.tasks.filter(({ what }) => DECIDING.includes(what));
  return (
    <LabStanding lab={lab}>
      <div className="today">
        <div className="stack">
          <section className="card stack" aria-labelledby="today-now">
            <h2 id="today-now">Due now</h2>
            {view.prompts.length === 0 && decide.length === 0 && agenda.toTest.length === 0 ? (
              <p className="soft">Nothing waits for the lab at this moment.</p>
            ) : (
              <ul className="tasks">
                {prompts.map((prompt) => (
                  <li key={`${prompt.lot}/${prompt.sample}`} className={prompt.urgency > 0 ? 'wants' : ''}>
                    <Mark shape={PROMPT_SHAPE[prompt.level]} />
                    <span>{prompt.words}</span>
                    <Link className="button" href={`/lab/samples/${prompt.lot}/${prompt.sample}`}>
                      {PROMPT_GO[prompt.level]}
                      <span className="hidden-words">
                        : sample {prompt.sample} of lot {prompt.lot}
                      </span>
                    </Link>
                  </li>
                ))}
                {toLog.map(({ lot, samples, urgent }) => (
                  <li key={lot} className={urgent ? 'wants' : ''}>
                    <Mark shape="dot" />
                    <span>
                      Lot {lot}: log {samples.length === 1 ? 'sample' : 'samples'} {batchRanges(samples)},
                      taken and not in the book
                    </span>
                    <Link className="button" href={`/lab/samples/${lot}/${Math.min(...samples)}`}>
                      Log {samples.length === 1 ? 'it' : 'them'}
                      <span className="hidden-words">: lot {lot}</span>
                    </Link>
                  </li>
                ))}
                {decide.map((task) => (
                  <li key={task.words} className={WANTS.includes(task.what) ? 'wants' : ''}>
                    <Mark shape={TASK_SHAPE[task.what]} />
                    <span>{task.words}</span>
                    {task.lot !== null && (
                      <Link className="button" href={`/lab/lots/${task.lot}`}>
                        Open the lot<span className="hidden-words"> {task.lot}</span>
                      </Link>
                    )}
                  </li>
                ))}
                {agenda.toTest.map((one) => (
                  <li key={nameOf(one)}>
                    <Mark shape="ring" />
                    <span>Test {nameOf(one).toLowerCase()}</span>
                    <Link className="button" href={newSheetPath(one.lot, one.sample)}>
                      Worksheet<span className="hidden-words"> for {nameOf(one)}</span>
                    </Link>
                  </li>
                ))}
              </ul>
            )}
          </section>
          <section className="card stack" aria-labelledby="today-discard">
            <h2 id="today-discard">Retained portions</h2>
            {agenda.discardNow.length === 0 && agenda.discardSoon.length === 0 && (
              <p className="soft">None is to be thrown away within a week.</p>
            )}
            <ul className="tasks">
              {agenda.discardNow.map((one) => (
                <li key={nameOf(one)}>
                  <Mark shape="flag" />
                  <span>
                    {nameOf(one)}: its date was {whenWords(one.sample.discardOn ?? '')}
                  </span>
                  <Link className="button" href={`/lab/samples/${one.lot}/${one.sample.n}`}>
                    Discard
                    <span className="hidden-words">
                      {' '}
                      sample {one.sample.n} of lot {one.lot}
                    </span>
                  </Link>
                </li>
              ))}
              {agenda.discardSoon.map((one) => (
                <li key={nameOf(one)}>
                  <Mark shape="ring" />
                  <span>
                    {nameOf(one)}: keep until {whenWords(one.sample.discardOn ?? '')}
                  </span>
                </li>
              ))}
            </ul>
          </section>
        </div>
        <div className="stack">
          <MixWarnings view={view} />
          <section className="card stack" aria-labelledby="today-missing">
            <h2 id="today-missing">Missing, by lot</h2>
            {agenda.missing.length === 0 ? (
              <p className="soft">No undecided lot misses anything.</p>
            ) : (
              <ul className="missing">
                {agenda.missing.map((lot) => (
                  <li key={lot.lot}>
                    <Link className="button" href={`/lab/lots/${lot.lot}`}>
                      Lot {lot.lot}
                    </Link>
                    <LotStateTag state={lot.state} done={lot.done} />
                    <ul className="bullets">
                      {lot.missing.map((words) => (
                        <li key={words}>{words}</li>
                      ))}
                    </ul>
                  </li>
                ))}
              </ul>
            )}
          </section>
          <section className="card stack" aria-labelledby="today-custody">
            <h2 id="today-custody">Who has what</h2>
            {agenda.custody.length === 0 ? (
              <p className="soft">No sample of an undecided lot is in anybody’s hands.</p>
            ) : (
              <ul className="custody">
                {agenda.custody.slice(0, 12).map(({ lot, samples, holder, at }) => (
                  <li key={`${lot}/${holder}`}>
                    <Link href={`/lab/lots/${lot}`}>
                      {lot}, {samples.length === 1 ? 'sample' : 'samples'} {batchRanges(samples)}
                    </Link>
                    <span>{personName(people, holder)}</span>
                    <span className="soft num">{at === '' ? '' : whenWords(at)}</span>
                  </li>
                ))}
              </ul>
            )}
          </section>
        </div>
      </div>
    </LabStanding>
  );
}
