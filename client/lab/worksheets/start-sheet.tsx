/** Where a test that belongs to no lot begins: on a bin's stone, on a delivery, on a material. */
import { type FormEvent, useId, useState } from 'react';
import { useLocation } from 'wouter';
import type { SheetId } from '../../../machines/lab/sheet-ids.ts';
import { SHEETS } from '../../../machines/lab/worksheets/index.ts';

const ON_OTHERS: readonly SheetId[] = [
  'moisture',
  'sieve',
  'aggregate',
  'binder-delivery',
  'emulsion-residue',
  'cutback-residue',
  'wet-coating',
  'static-immersion',
  'particle-count',
];
const KINDS = [
  { kind: 'bin', words: 'cold bin number' },
  { kind: 'delivery', words: 'delivery' },
  { kind: 'material', words: 'material' },
] as const;

export function StartSheet() {
  const id = useId();
  const [, go] = useLocation();
  const [sheet, setSheet] = useState<SheetId>('moisture');
  const [kind, setKind] = useState<(typeof KINDS)[number]['kind']>('bin');
  const [of, setOf] = useState('');
  const [missing, setMissing] = useState(false);
  const start = (event: FormEvent) => {
    event.preventDefault();
    if (of.trim() === '') {
      setMissing(true);
      return;
    }
    go(`/lab/worksheets/new?${new URLSearchParams({ sheet, kind, id: of.trim() })}`);
  };
  return (
    <form className="card stack" onSubmit={start} aria-labelledby={`${id}-head`} noValidate>
      <h2 id={`${id}-head`}>A test of something other than a lot</h2>
      <div className="field">
        <label htmlFor={`${id}-sheet`}>Sheet</label>
        <select
          id={`${id}-sheet`}
          value={sheet}
          onChange={(event) => setSheet(ON_OTHERS.find((one) => one === event.target.value) ?? 'moisture')}
        >
          {ON_OTHERS.filter((one) => SHEETS[one] !== undefined).map((one) => (
            <option key={one} value={one}>
              {SHEETS[one].title}
            </option>
          ))}
        </select>
      </div>
      <div className="start-of">
        <div className="field">
          <label htmlFor={`${id}-kind`}>Made on a</label>
          <select
            id={`${id}-kind`}
            value={kind}
            onChange={(event) => setKind(KINDS.find((one) => one.kind === event.target.value)?.kind ?? 'bin')}
          >
            {KINDS.map((one) => (
              <option key={one.kind} value={one.kind}>
                {one.words}
              </option>
            ))}
          </select>
        </div>
        <div className="field">
          <label htmlFor={`${id}-of`}>Which</label>
          <input
            id={`${id}-of`}
            type="text"
            maxLength={60}
            value={of}
            aria-invalid={missing}
            aria-describedby={missing ? `${id}-help` : undefined}
            onChange={(event) => {
              setMissing(false);
              setOf(event.target.value);
            }}
          />
          {missing && (
            <span id={`${id}-help`} className="warn-words">
              Say which: the bin’s number, the delivery’s id, the material’s name.
            </span>
          )}
        </div>
      </div>
      <div className="row">
        <button type="submit" className="button">
          Begin the sheet
        </button>
      </div>
    </form>
  );
}
