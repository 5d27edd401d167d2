/** The figures every take-off rests on: what they are, where they come from, and changing them with a reason. */
import { type FormEvent, useState } from 'react';
import { Link } from 'wouter';
import { BASIS_FIGURES, type Basis } from '../../../machines/yard/patches/basis.ts';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { Scroll } from './scroll.tsx';
import { usePatches } from './use-patches.ts';
import { BookWaiting } from './waiting.tsx';

type Draft = { readonly [K in keyof Basis]?: string };

export function BasisPage() {
  const book = usePatches();
  const [draft, setDraft] = useState<Draft>({});
  const [asking, setAsking] = useState(false);
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  const barred = book.whyNot('changeBasis');
  const wrong = BASIS_FIGURES.flatMap(({ key, label, from, to, unit }) => {
    const text = draft[key];
    if (text === undefined) return [];
    const value = text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'));
    return value >= from && value <= to ? [] : [`${label}: write a number from ${from} to ${to} ${unit}.`];
  });
  const now = {
    ...view.basis,
    ...Object.fromEntries(
      Object.entries(draft).map(([key, text]) => [key, Number((text ?? '').replace(',', '.'))]),
    ),
  } as Basis;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (barred !== null) return book.asked.explain([barred]);
    if (wrong.length > 0) return book.asked.explain(wrong);
    setAsking(true);
  };
  return (
    <form className="card stack yp" onSubmit={submit} noValidate>
      <Link href="/yard/patches" className="yp-back">
        ← All patch lists
      </Link>
      <h2>Figures of the take-off</h2>
      <p className="soft">
        They hold for lists and holes taken from now on; what is listed already keeps the figures it was
        listed with. Layers are 25–75 mm each, in equal parts (common practice, no source; 75 mm at most also
        by IRC:116).
      </p>
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      <Scroll label="Figures">
        <table className="yp-table yp-figures">
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col">Value</th>
              <th scope="col">Allowed</th>
              <th scope="col">Where it comes from</th>
            </tr>
          </thead>
          <tbody>
            {BASIS_FIGURES.map(({ key, label, unit, from, to, source }) => (
              <tr key={key}>
                <th scope="row">
                  <label htmlFor={`basis-${key}`}>{label}</label>
                </th>
                <td>
                  <span className="row yp-value">
                    <input
                      id={`basis-${key}`}
                      type="text"
                      inputMode="decimal"
                      value={draft[key] ?? String(view.basis[key])}
                      onChange={(event) => setDraft({ ...draft, [key]: event.target.value })}
                    />
                    {unit}
                  </span>
                </td>
                <td className="num">
                  {from}–{to}
                </td>
                <td>{source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <div className="row">
        <button type="submit" className="button primary" data-barred={barred !== null}>
          Change the figures
        </button>
        <button type="button" className="button" onClick={() => setDraft({})}>
          Leave them as they are
        </button>
      </div>
      {asking && (
        <ConfirmDialog
          title="Change the figures"
          words="Lists taken from now on are worked out with the new figures."
          go="Change"
          needsReason
          onGo={async (reason) => {
            setAsking(false);
            if (await book.put({ do: 'changeBasis', now, reason }, 'The figures are changed.')) setDraft({});
          }}
          onClose={() => setAsking(false)}
        />
      )}
    </form>
  );
}
