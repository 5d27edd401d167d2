/** Steps through a story: the broken charts on one side, the charts as they are on the other, and where these stop it. */
import { type KeyboardEvent, useMemo, useState } from 'react';
import { type PlayedStep, playStory, type StoryStates } from '../../machines/line/story.ts';
import type { Story } from '../../machines/scenario/story.schema.ts';
import { Mark } from '../parts/mark.tsx';
import { elementsOf, type Side, sideOf, whyStopped } from './story-words.ts';

function Charts({ sides }: { readonly sides: readonly Side[] }) {
  return (
    <dl className="story-charts">
      {sides.map(({ chart, lines }) => (
        <div key={chart}>
          <dt>{chart}</dt>
          {lines.length === 0 && <dd className="soft">as before</dd>}
          {lines.map(({ text, differs }) => (
            <dd key={text} className={differs ? 'differs' : undefined}>
              {differs && <Mark shape="diamond" />}
              {text}
              {differs && <span className="hidden-words"> (differs)</span>}
            </dd>
          ))}
        </div>
      ))}
    </dl>
  );
}

function Elements({ words, elements }: { readonly words: string; readonly elements: string }) {
  return (
    <p>
      <span className="label">{words}</span> {elements}
    </p>
  );
}

type StepProps = {
  readonly played: PlayedStep;
  readonly before: StoryStates;
  readonly realBefore: StoryStates;
};

function Sides({ played, before, realBefore }: StepProps) {
  const { step, broken, real, through, demands } = played;
  return (
    <div className="story-sides">
      <section className="story-side broken" aria-labelledby="story-broken">
        <h4 id="story-broken">With one thing broken</h4>
        <Charts sides={sideOf(broken, real, before)} />
        {step.demands !== undefined && <Elements words="It asks for" elements={elementsOf(step.demands)} />}
        {step.through !== undefined && (
          <Elements words="The gate lets through" elements={elementsOf(step.through)} />
        )}
      </section>
      <section className="story-side" aria-labelledby="story-real">
        <h4 id="story-real">As it is</h4>
        <Charts sides={sideOf(real, broken, realBefore)} />
        {demands !== null && <Elements words="It asks for" elements={elementsOf(demands)} />}
        {through !== null && <Elements words="The gate lets through" elements={elementsOf(through)} />}
      </section>
    </div>
  );
}

export function StoryPlayer({ story }: { readonly story: Story }) {
  const { steps, stopsAt } = useMemo(() => playStory(story), [story]);
  const [at, setAt] = useState(0);
  const last = steps.length - 1;
  const go = (to: number) => setAt(Math.max(0, Math.min(last, to)));
  const played = steps[at] as PlayedStep;
  const previous = steps[at - 1];
  const stopped = stopsAt !== null && at >= stopsAt;
  const onKeyDown = (event: KeyboardEvent) => {
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    go(to);
  };
  return (
    <section className="card stack story" aria-labelledby="story-title" onKeyDown={onKeyDown}>
      <div>
        <h3 id="story-title">
          <span className="num">{story.rule}</span> {story.name}
        </h3>
        <p>
          <span className="label">The rule it would break</span> {story.never}.
        </p>
      </div>
      <div className="row story-buttons">
        <button type="button" className="button" aria-disabled={at === 0} onClick={() => go(at - 1)}>
          Back
        </button>
        <button
          type="button"
          className="button primary"
          aria-disabled={at === last}
          onClick={() => go(at + 1)}
        >
          Next step
        </button>
        <button type="button" className="button" aria-disabled={at === 0} onClick={() => go(0)}>
          Begin again
        </button>
        {stopsAt !== null && (
          <button type="button" className="button" aria-disabled={at === stopsAt} onClick={() => go(stopsAt)}>
            Where it is stopped
          </button>
        )}
        <span className="num soft">
          Step {at + 1} of {steps.length}
        </span>
      </div>
      <div className="story-board">
        <ol className="story-steps">
          {steps.map(({ step }, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the same thing may happen twice; its place is what tells
            <li key={index}>
              <button
                type="button"
                aria-current={index === at ? 'step' : undefined}
                onClick={() => go(index)}
              >
                <span className="num">{index + 1}</span>
                <span>{step.means}</span>
                {index === stopsAt && (
                  <span className="story-stop">
                    <Mark shape="flag" /> stopped here
                  </span>
                )}
              </button>
            </li>
          ))}
        </ol>
        <div className="stack">
          <p className={stopped ? 'story-verdict stopped' : 'story-verdict'} role="status">
            {at === stopsAt ? (
              <>
                <Mark shape="flag" /> <strong>The interlock as it is stops it here.</strong>{' '}
                {whyStopped(played)}
              </>
            ) : stopped ? (
              <>
                <Mark shape="flag" /> Stopped at step {(stopsAt ?? 0) + 1}; what follows happens only with the
                broken one.
              </>
            ) : (
              <>
                <Mark shape="ring" />{' '}
                {stopsAt === null
                  ? 'The charts as they are go the same way.'
                  : 'So far both go the same way.'}
              </>
            )}
          </p>
          <Sides
            played={played}
            before={previous?.broken ?? (story.start as StoryStates)}
            realBefore={previous?.real ?? (story.start as StoryStates)}
          />
        </div>
      </div>
    </section>
  );
}
