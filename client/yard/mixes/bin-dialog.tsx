/** What a bin holds: kind, sieve analysis, absorption, own binder; typed or taken over from the lab's analysis. */
import { type FormEvent, useId, useState } from 'react';
import type { BinFigures } from '../../../machines/yard/mixes/bins.ts';
import { binDescriptionSchema } from '../../../machines/yard/mixes/commands.ts';
import type { BinDescription } from '../../../machines/yard/mixes/facts.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { NumberField } from './number-field.tsx';
import type { MixesHere } from './use-mixes.ts';
import { whenWords } from './words.ts';

type Grading = BinDescription['grading'];
type Point = Grading[number];

const KINDS = ['crushed stone', 'natural sand', 'reclaimed'] as const;

/** One sieve a line: opening and % passing, as "4.75 60". */
const written = (grading: Grading): string =>
  grading.map((point) => `${point.sieveMm} ${point.passingPct}`).join('\n');

const readGrading = (text: string): Point[] | string => {
  const points: Point[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    const trimmed = line.trim();
    if (trimmed === '') continue;
    const numbers = trimmed
      .replace(/,/g, '.')
      .split(/[\s;:]+/)
      .map(Number);
    const [sieveMm, passingPct] = numbers;
    if (
      numbers.length !== 2 ||
      sieveMm === undefined ||
      passingPct === undefined ||
      numbers.some(Number.isNaN)
    )
      return `Line ${i + 1}: write the opening in mm, a space and the % passing, such as 4.75 60.`;
    points.push({ sieveMm, passingPct });
  }
  return points.sort((a, b) => b.sieveMm - a.sieveMm);
};

export function BinDialog({
  bin,
  book,
  onClose,
}: {
  readonly bin: BinFigures;
  readonly book: MixesHere;
  readonly onClose: () => void;
}) {
  const [kind, setKind] = useState(bin.kind);
  const [grading, setGrading] = useState(written(bin.grading));
  const [absorptionPct, setAbsorption] = useState(bin.absorptionPct);
  const [ownBinderPct, setOwnBinder] = useState(bin.ownBinderPct);
  const [source, setSource] = useState(bin.described ? bin.source : '');
  const [reason, setReason] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const id = useId();
  const why = book.whyNot('describeBin');
  const { analysis } = bin;

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (why !== null) return book.asked.explain([why]);
    const points = readGrading(grading);
    if (typeof points === 'string') return setWrong(points);
    const now = binDescriptionSchema.safeParse({
      kind,
      grading: points,
      absorptionPct,
      ownBinderPct: kind === 'reclaimed' ? ownBinderPct : 0,
      source,
    });
    if (!now.success) return setWrong(now.error.issues.map((issue) => issue.message).join('; '));
    setWrong(null);
    const done = await book.put(
      { do: 'describeBin', bin: bin.bin, now: now.data, reason },
      `Bin ${bin.bin} is described anew.`,
    );
    if (done) onClose();
  };

  return (
    <Dialog title={`Bin ${bin.bin}, ${bin.name}`} onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={wrong === null ? book.asked.refusal : [wrong]} onClose={() => setWrong(null)} />
        <p className="soft">
          Figures from: {bin.source}. Moisture {bin.moisturePct} %, from {bin.moistureSource}.
        </p>
        {analysis !== null && (
          <div className="row">
            <button
              type="button"
              className="button"
              onClick={() => {
                setGrading(written(analysis.grading));
                if (analysis.absorptionPct !== null) setAbsorption(analysis.absorptionPct);
                setSource(`lab, worksheet ${analysis.worksheet}`);
                setReason(`sieve analysis of ${whenWords(analysis.at)}`);
              }}
            >
              Take over the lab's analysis of {whenWords(analysis.at)}
            </button>
          </div>
        )}
        <div className="field">
          <label htmlFor={`${id}-kind`}>It holds</label>
          <select
            id={`${id}-kind`}
            value={kind}
            onChange={(event) => setKind(KINDS.find((one) => one === event.target.value) ?? kind)}
          >
            {KINDS.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-grading`}>
            Sieve analysis: opening in mm and % passing, one sieve a line
          </label>
          <textarea
            id={`${id}-grading`}
            className="num"
            rows={7}
            value={grading}
            onChange={(event) => setGrading(event.target.value)}
          />
        </div>
        <div className="mx-pair">
          <NumberField
            label="Water absorption"
            unit="%"
            value={absorptionPct}
            max={10}
            onChange={setAbsorption}
          />
          {kind === 'reclaimed' && (
            <NumberField
              label="Old binder, of its dry mass"
              unit="%"
              value={ownBinderPct}
              max={10}
              onChange={setOwnBinder}
            />
          )}
        </div>
        <div className="field">
          <label htmlFor={`${id}-source`}>Where the figures come from</label>
          <input
            id={`${id}-source`}
            type="text"
            maxLength={200}
            value={source}
            onChange={(event) => setSource(event.target.value)}
          />
        </div>
        <div className="field">
          <label htmlFor={`${id}-reason`}>Why they change, kept in the record</label>
          <input
            id={`${id}-reason`}
            type="text"
            maxLength={300}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" data-barred={why !== null}>
            Describe it so
          </button>
        </div>
      </form>
    </Dialog>
  );
}
