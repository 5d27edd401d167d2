/** Taking a new patch list: pasted or from a file with a preview, or typed; whole or not at all. */
import { type FormEvent, useId, useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { Basis } from '../../../machines/yard/patches/basis.ts';
import type { Mapping } from '../../../machines/yard/patches/csv/columns.ts';
import { missingColumns, type ReadTable, readTable } from '../../../machines/yard/patches/csv/rows.ts';
import { MOST_PATCHES } from '../../../machines/yard/patches/limits.ts';
import type { Measured } from '../../../machines/yard/patches/patch.types.ts';
import { takeOffOf } from '../../../machines/yard/patches/take-off.ts';
import { troubleWith } from '../../../machines/yard/patches/trouble.ts';
import { plural } from '../../format/format.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { EMPTY_HOLE, type HoleText, holeOf } from './hole-fields.tsx';
import { MappingTable } from './mapping-table.tsx';
import { RowErrors } from './row-errors.tsx';
import { SourceBox } from './source-box.tsx';
import { firstReading, type Reading, type Source, withSeparator } from './table-source.ts';
import { TypedRows } from './typed-rows.tsx';
import { type PatchesHere, usePatches } from './use-patches.ts';
import { BookWaiting } from './waiting.tsx';
import { mass, sizes } from './words.ts';
import './new-list.css';

const mixOf = (holes: readonly Measured[], basis: Basis): number =>
  holes.reduce((sum, hole) => sum + (troubleWith(hole).length > 0 ? 0 : takeOffOf(hole, basis).mixKg), 0);

/** The name, and the button that takes the list. */
function Take({
  holes,
  source,
  basis,
  book,
  against,
}: {
  readonly holes: readonly Measured[];
  readonly source: {
    readonly how: 'typed' | 'pasted' | 'file';
    readonly file: string | null;
    readonly leftOut: number;
  };
  readonly basis: Basis;
  readonly book: PatchesHere;
  /** Why it cannot be taken yet. */
  readonly against: readonly string[];
}) {
  const [name, setName] = useState(source.file?.replace(/\.[a-z]{2,4}$/i, '').slice(0, 120) ?? '');
  const [, go] = useLocation();
  const id = useId();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const barred = book.whyNot('takeList');
    const because = [
      ...(barred === null ? [] : [barred]),
      ...against,
      ...(name.trim() === '' ? ['Give the list a name, such as the week or the district.'] : []),
    ];
    if (because.length > 0) return book.asked.explain(because);
    const done = await book.put(
      { do: 'takeList', name, source, patches: [...holes] },
      `${plural(holes.length, 'patch', 'patches')} taken.`,
    );
    if (done) go('/yard/patches');
  };
  return (
    <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      <div className="yp-take">
        <div className="field">
          <label htmlFor={id}>Name of the list</label>
          <input
            id={id}
            type="text"
            maxLength={120}
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
        </div>
        <p className="yp-sum num" role="status">
          {plural(holes.length, 'hole')}, {mass(mixOf(holes, basis))} of mix
        </p>
        <button
          type="submit"
          className="button primary"
          data-barred={against.length > 0}
          aria-busy={book.asked.waiting}
        >
          Take the list
        </button>
      </div>
    </form>
  );
}

function Results({ read, mapping }: { readonly read: ReadTable; readonly mapping: Mapping }) {
  const odd = read.good.filter(({ notes }) => notes.length > 0);
  const first = read.good[0];
  return (
    <ul className="yp-found">
      <li>
        {plural(read.good.length, 'row')} read as {read.good.length === 1 ? 'a hole' : 'holes'}
        {read.blank > 0 ? `; ${plural(read.blank, 'empty row')} passed over` : ''}
        {read.filledDown > 0 ? `; ${plural(read.filledDown, 'cell')} filled from above` : ''}.
      </li>
      {first !== undefined && (
        <li>
          Row {first.line} is: <strong>{first.hole.place}</strong>, {sizes(first.hole)}
          {mapping.decimal === ',' ? ', read with a decimal comma' : ''}.
        </li>
      )}
      {odd.length > 0 && (
        <li className="row warn-words">
          <Mark shape="triangle" />
          {plural(odd.length, 'row')} {odd.length === 1 ? 'begins' : 'begin'} like a formula (row{' '}
          {odd
            .slice(0, 5)
            .map(({ line }) => line)
            .join(', ')}
          ): kept as plain text, and never run.
        </li>
      )}
    </ul>
  );
}

function FromTable({
  source,
  reading,
  basis,
  book,
  onSource,
}: {
  readonly source: Source;
  readonly reading: Reading;
  readonly basis: Basis;
  readonly book: PatchesHere;
  readonly onSource: (source: Source | null) => void;
}) {
  const [mapping, setMapping] = useState(reading.mapping);
  const [leaveOut, setLeaveOut] = useState(false);
  const [right, setRight] = useState(false);
  const missing = missingColumns(mapping);
  const read = useMemo(
    () => (missing.length > 0 ? null : readTable(source.rows, mapping)),
    [source, mapping, missing.length],
  );
  const change = (next: Mapping) => {
    setMapping(next);
    setRight(false);
    setLeaveOut(false);
  };
  const holes = read?.good.map(({ hole }) => hole) ?? [];
  const against = [
    ...(missing.length > 0 ? [`Say which column is: ${missing.join(', ')}.`] : []),
    ...source.troubles.map((words) => `${words} Mend it where it comes from and read again.`),
    ...(read !== null && holes.length === 0 ? ['No row could be read as a hole.'] : []),
    ...(holes.length > MOST_PATCHES
      ? [
          `A list holds at most ${MOST_PATCHES} patches, these are ${holes.length}: split it, for instance by route.`,
        ]
      : []),
    ...(read !== null && read.bad.length > 0 && !leaveOut
      ? [`${plural(read.bad.length, 'row')} cannot be taken: mend or leave out. Nothing is taken by halves.`]
      : []),
    ...(right ? [] : ['Look at the preview and confirm that it is read right.']),
  ];
  return (
    <>
      <section className="card stack" aria-labelledby="yp-map">
        <div className="yp-head">
          <h2 id="yp-map">{source.file ?? 'Pasted rows'}</h2>
          <button type="button" className="button" onClick={() => onSource(null)}>
            Read another
          </button>
        </div>
        <MappingTable
          source={source}
          reading={reading}
          mapping={mapping}
          onSeparator={(separator) => onSource(withSeparator(source, separator))}
          onMapping={change}
        />
        {source.troubles.map((words) => (
          <p className="row warn-words" key={words}>
            <Mark shape="triangle" />
            {words}
          </p>
        ))}
        {missing.length > 0 && (
          <p className="row warn-words" role="status">
            <Mark shape="triangle" />
            Say which column is: {missing.join(', ')}. If everything stands in one column, choose another
            separator.
          </p>
        )}
        {read !== null && <Results read={read} mapping={mapping} />}
        {read !== null && <RowErrors bad={read.bad} leaveOut={leaveOut} onLeaveOut={setLeaveOut} />}
        {read !== null && holes.length > 0 && (
          <label className="check">
            <input
              type="checkbox"
              className="hidden-words"
              checked={right}
              onChange={(event) => setRight(event.target.checked)}
            />
            <span className="box">
              <Mark shape="check" />
            </span>
            I have looked at the preview: columns, units and decimal sign are right
          </label>
        )}
      </section>
      <section className="card">
        <Take
          holes={holes}
          source={{ how: source.how, file: source.file, leftOut: read?.bad.length ?? 0 }}
          basis={basis}
          book={book}
          against={against}
        />
      </section>
    </>
  );
}

function FromTyped({ basis, book }: { readonly basis: Basis; readonly book: PatchesHere }) {
  const [holes, setHoles] = useState<readonly HoleText[]>([EMPTY_HOLE]);
  return (
    <>
      <section className="card stack" aria-label="Holes">
        <TypedRows holes={holes} basis={basis} onChange={setHoles} />
      </section>
      <section className="card">
        <Take
          holes={holes.map(holeOf)}
          source={{ how: 'typed', file: null, leftOut: 0 }}
          basis={basis}
          book={book}
          against={[]}
        />
      </section>
    </>
  );
}

export function NewList() {
  const book = usePatches();
  const [typing, setTyping] = useState(false);
  const [source, setSource] = useState<Source | null>(null);
  const reading = useMemo(() => (source === null ? null : firstReading(source)), [source]);
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  return (
    <div className="stack yp">
      <section className="card stack">
        <Link href="/yard/patches" className="yp-back">
          ← All patch lists
        </Link>
        <div className="yp-head">
          <h2>New patch list</h2>
          <div className="row">
            <button type="button" className="button" aria-pressed={!typing} onClick={() => setTyping(false)}>
              Paste or open a table
            </button>
            <button type="button" className="button" aria-pressed={typing} onClick={() => setTyping(true)}>
              Type holes
            </button>
          </div>
        </div>
        {!typing && source === null && (
          <>
            <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
            <SourceBox
              onSource={(next) => {
                book.asked.clear();
                setSource(next);
              }}
              onTrouble={(why) => book.asked.explain([why])}
            />
          </>
        )}
      </section>
      {typing && <FromTyped basis={view.basis} book={book} />}
      {!typing && source !== null && reading !== null && (
        <FromTable
          key={source.separator}
          source={source}
          reading={reading}
          basis={view.basis}
          book={book}
          onSource={setSource}
        />
      )}
    </div>
  );
}
