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
import './samples.css';

const NONE: readonly SamplePrompt[] = [];

export function SamplePrompts({ className = '' }: { readonly className?: string }) {
  const prompts = useLive((live) => live.view?.samplePrompts ?? NONE);
  const at = useStandpoint();
  const asked = useCommand();
  const hasLab = useHasReports();
  if (prompts.length === 0 && asked.refusal === null) return null;
  const take = ({ lot, sample }: SamplePrompt) => {
    const because = whyNot('takeSample', at);
    if (because.length > 0) asked.explain(because);
    else void asked.send({ do: 'takeSample', lot, sample }, `Sample ${sample} taken.`);
  };
  return (
    <section className={`sample-prompts ${className}`} aria-label="Samples to be taken">
      <ul>
        {prompts.map((prompt) => (
          <li key={`${prompt.lot}/${prompt.sample}`} className={prompt.level === 'due' ? '' : 'urgent'}>
            <Mark shape={prompt.level === 'due' ? 'flag' : 'triangle'} />
            <span>{prompt.words}</span>
            {prompt.level !== 'missed' && (
              <button type="button" className="button" aria-busy={asked.waiting} onClick={() => take(prompt)}>
                Sample {prompt.sample} is taken
              </button>
            )}
            {prompt.level === 'missed' && hasLab && (
              <Link className="button" href={`/lab/samples/${prompt.lot}/${prompt.sample}`}>
                Put one in its place
              </Link>
            )}
          </li>
        ))}
      </ul>
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </section>
  );
}
