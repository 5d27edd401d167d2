/** Open a story: choose one that is shipped, or a file, and step through it. */
import { useId, useState } from 'react';
import type { Story } from '../../machines/scenario/story.schema.ts';
import { Refusal } from '../parts/refusal.tsx';
import { StoryPlayer } from './StoryPlayer.tsx';
import { readStory, SHIPPED } from './story-files.ts';
import './story.css';

/** A story of sixty steps is a few tens of kilobytes. */
const LARGEST_BYTES = 1_000_000;

export function Stories() {
  const [story, setStory] = useState<Story | null>(SHIPPED[0] ?? null);
  const [because, setBecause] = useState<readonly string[] | null>(null);
  const [n, setN] = useState(0);
  const id = useId();
  const show = (next: Story) => {
    setBecause(null);
    setStory(next);
    setN(n + 1);
  };
  const openFile = async (file: File | undefined) => {
    if (file === undefined) return;
    if (file.size > LARGEST_BYTES) {
      setBecause([`${file.name} is too large for a story: choose a file written by the exploration.`]);
      return;
    }
    const opened = readStory(await file.text());
    if (opened.ok) show(opened.story);
    else setBecause([`${file.name} cannot be opened.`, ...opened.because]);
  };
  return (
    <div className="stack">
      <section className="card stack" aria-labelledby={`${id}-title`}>
        <h2 id={`${id}-title`}>Open a story</h2>
        <p>
          Each story was found by breaking one thing on purpose and searching every state for the shortest way
          to harm. Step through it: the charts on this page run beside the broken ones, and stop it.
        </p>
        <div className="row story-open">
          <label className="field">
            <span className="label">Story</span>
            <select
              value={SHIPPED.findIndex((one) => one.id === story?.id)}
              onChange={(event) => {
                const chosen = SHIPPED[Number(event.target.value)];
                if (chosen !== undefined) show(chosen);
              }}
            >
              {!SHIPPED.some((one) => one.id === story?.id) && (
                <option value={-1}>{story === null ? 'None' : `${story.rule} from a file`}</option>
              )}
              {SHIPPED.map((one, index) => (
                <option key={one.id} value={index}>
                  {one.rule} {one.name}
                </option>
              ))}
            </select>
          </label>
          <label className="field">
            <span className="label">Or a story file of your own</span>
            <input
              type="file"
              accept=".yaml,.yml,text/yaml"
              onChange={(event) => {
                void openFile(event.target.files?.[0]);
                event.target.value = '';
              }}
            />
          </label>
        </div>
        <Refusal because={because} onClose={() => setBecause(null)} />
      </section>
      {story !== null && <StoryPlayer key={`${story.id} ${n}`} story={story} />}
    </div>
  );
}
