/** Samples that somebody must take now: they stand where the eye goes until they are taken, several at once if need be. */
import { Link } from 'wouter';
import type { SamplePrompt } from '../../../machines/line/view.types.ts';
import { whyNot } from '../../live/may.ts';
import { useLive } from '../../live/store.ts';
import { useCommand } from '../../live/use-command.ts';
import { useStandpoint } from '../../live/use-standpoint.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { useHasReports } from '../../reports/plants-own.ts';
import { groupsOf } from './prompt-groups.ts';
import './samples.css';

/** Nothing can be taken of a batch that is still in the mixer. */
const whyNotYet = (level: SamplePrompt['level'], batch: number | null): readonly string[] =>
  level === 'due'
    ? [`Batch ${batch ?? ''} is still in the mixer: take the sample as it is discharged, then press this.`]
    : [];

const NONE: readonly SamplePrompt[] = [];

export function SamplePrompts({ className = '' }: { readonly className?: string }) {
  const prompts = useLive((live) => live.view?.samplePrompts ?? NONE);
  const at = useStandpoint();
  const asked = useCommand();
  const hasLab = useHasReports();
  if (prompts.length === 0 && asked.refusal === null) return null;
  const take = ({ lot, sample, level, batch }: SamplePrompt) => {
    const because = [...whyNot('takeSample', at), ...whyNotYet(level, batch)];
    if (because.length > 0) asked.explain(because);
    else void asked.send({ do: 'takeSample', lot, sample }, `Sample ${sample} taken.`);
  };
  return (
    <section className={`sample-prompts ${className}`} aria-label="Samples to be taken">
      <ul>
        {groupsOf(prompts).map(({ key, level, words, prompts: own }) => (
          <li key={key} className={level === 'due' ? '' : 'urgent'}>
            <Mark shape={level === 'due' ? 'flag' : 'triangle'} />
            <span>{words}</span>
            <span className="prompt-acts">
              {own.map((prompt) =>
                level === 'missed' ? (
                  hasLab && (
                    <Link
                      key={prompt.sample}
                      className="button"
                      href={`/lab/samples/${prompt.lot}/${prompt.sample}`}
                    >
                      Put one in its place
                    </Link>
                  )
                ) : (
                  <button
                    key={prompt.sample}
                    type="button"
                    className="button"
                    data-barred={level === 'due'}
                    aria-busy={asked.waiting}
                    onClick={() => take(prompt)}
                  >
                    <span>
                      Sample {prompt.sample} is taken{' '}
                      {own.length > 1 && prompt.test !== '' && (
                        <span className="prompt-test">{prompt.test}</span>
                      )}
                    </span>
                  </button>
                ),
              )}
            </span>
          </li>
        ))}
      </ul>
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </section>
  );
}
