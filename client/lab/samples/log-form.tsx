/** A sample written into the lab's book: its mass, what it is kept in, how much is kept back and until when. */
import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import type { LabSample } from '../../../machines/lab/state.ts';
import { useCommand } from '../../live/use-command.ts';
import { Refusal } from '../../parts/refusal.tsx';
import type { Lab } from '../data.ts';
import { logProblems, numberIn } from './log-check.ts';

const CONTAINERS = ['tin, 5 kg', 'tin, 2.5 kg', 'bag, 10 kg', 'tray'];
/** What so much of a sample goes into. */
const holding = (massKg: number): string =>
  massKg > 5 ? 'bag, 10 kg' : massKg > 2.5 ? 'tin, 5 kg' : 'tin, 2.5 kg';

export function LogForm({
  lab,
  lot,
  sample,
  usualKg,
  onDone,
}: {
  readonly lab: Lab;
  readonly lot: string;
  readonly sample: LabSample;
  /** What the specification asks to be taken; null where it says nothing. */
  readonly usualKg: number | null;
  readonly onDone?: () => void;
}) {
  const id = useId();
  const substitute = sample.state !== 'taken';
  const [massText, setMass] = useState(usualKg === null ? '' : String(usualKg * 2));
  const [container, setContainer] = useState(holding((usualKg ?? 2.5) * 2));
  const [retainedText, setRetained] = useState(usualKg === null ? '' : String(usualKg));
  const [source, setSource] = useState<'bay' | 'retained portion'>('bay');
  const [ofSample, setOfSample] = useState('');
  const [remark, setRemark] = useState('');
  const [shown, setShown] = useState(false);
  const asked = useCommand();
  const problems = logProblems({ massText, container, retainedText, reason: substitute ? remark : null });

  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    const first = form.current?.querySelector('input');
    first?.focus();
    first?.select();
  }, []);

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setShown(true);
    const massKg = numberIn(massText);
    const retainedKg = numberIn(retainedText);
    if (Object.keys(problems).length > 0 || massKg === null || retainedKg === null) return;
    const portion = { massKg, container: container.trim(), retainedKg };
    const command = substitute
      ? ({
          do: 'substituteSample',
          lot,
          sample: sample.n,
          source,
          ofSample: source === 'bay' ? null : numberIn(ofSample),
          ...portion,
          reason: remark.trim(),
        } as const)
      : ({ do: 'logSample', lot, sample: sample.n, ...portion, remark: remark.trim() } as const);
    if (await asked.ask(() => lab.ask(command), `Sample ${sample.n} of lot ${lot} is in the book.`))
      onDone?.();
  };

  const problem = (key: keyof typeof problems) => (shown ? (problems[key] ?? null) : null);
  const field = (
    key: keyof typeof problems,
    label: string,
    value: string,
    set: (text: string) => void,
    unit = '',
    help = '',
  ) => {
    const wrong = problem(key);
    const said = wrong ?? help;
    return (
      <div className={wrong === null ? 'entry' : 'entry wrong'}>
        <label htmlFor={`${id}-${key}`}>{label}</label>
        <span className="entry-box">
          <input
            id={`${id}-${key}`}
            type="text"
            autoComplete="off"
            className={unit === '' ? 'words' : 'num'}
            value={value}
            inputMode={unit === '' ? 'text' : 'decimal'}
            list={key === 'container' ? `${id}-containers` : undefined}
            aria-invalid={wrong !== null}
            aria-describedby={said === '' ? undefined : `${id}-${key}-help`}
            onChange={(event) => set(event.target.value)}
          />
          {unit !== '' && <span className="entry-unit">{unit}</span>}
        </span>
        {said !== '' && (
          <span
            id={`${id}-${key}-help`}
            className={wrong === null ? 'entry-help soft' : 'entry-help warn-words'}
          >
            {said}
          </span>
        )}
      </div>
    );
  };

  return (
    <form ref={form} className="stack log-form" onSubmit={(event) => void submit(event)} noValidate>
      {substitute && (
        <div className="entry">
          <label htmlFor={`${id}-source`}>Taken instead from</label>
          <span className="entry-box">
            <select
              id={`${id}-source`}
              value={source}
              onChange={(event) => setSource(event.target.value === 'bay' ? 'bay' : 'retained portion')}
            >
              <option value="bay">the bay</option>
              <option value="retained portion">the retained portion of another sample</option>
            </select>
          </span>
        </div>
      )}
      {substitute && source !== 'bay' && (
        <div className="entry">
          <label htmlFor={`${id}-of`}>Of sample number</label>
          <span className="entry-box">
            <input
              id={`${id}-of`}
              type="text"
              inputMode="numeric"
              value={ofSample}
              onChange={(event) => setOfSample(event.target.value)}
            />
          </span>
        </div>
      )}
      {field('mass', 'Mass taken', massText, setMass, 'kg')}
      {field('container', 'Kept in', container, setContainer)}
      <datalist id={`${id}-containers`}>
        {CONTAINERS.map((words) => (
          <option key={words} value={words} />
        ))}
      </datalist>
      {field(
        'retained',
        'Of this kept back',
        retainedText,
        setRetained,
        'kg',
        'for a retest; part of the mass taken',
      )}
      {field(
        'reason',
        substitute ? 'Why' : 'Remark',
        remark,
        setRemark,
        '',
        substitute ? '' : 'may stay empty',
      )}
      <div className="row">
        <button type="submit" className="button primary" aria-busy={asked.waiting}>
          {substitute ? 'Put it in the book in its place' : 'Log the sample'}
        </button>
      </div>
      <Refusal because={asked.refusal} onClose={asked.clear} />
    </form>
  );
}
