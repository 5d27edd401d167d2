/** Two versions of a mix, field by field: only what differs is shown. */
import { useState } from 'react';
import { Link } from 'wouter';
import { differences } from '../../../machines/yard/mixes/difference.ts';
import type { MixVersion } from '../../../machines/yard/mixes/state.ts';
import { useLive } from '../../live/store.ts';
import { Refusal } from '../../parts/refusal.tsx';
import { useMixes } from './use-mixes.ts';
import { VersionActions } from './version-actions.tsx';
import { BookWaiting } from './waiting.tsx';
import { nameOf, STATE_WORDS, whenWords } from './words.ts';

function Chooser({
  label,
  versions,
  chosen,
  onChoose,
}: {
  readonly label: string;
  readonly versions: readonly MixVersion[];
  readonly chosen: number;
  readonly onChoose: (version: number) => void;
}) {
  return (
    <label className="field">
      <span className="field-label">{label}</span>
      <select value={chosen} onChange={(event) => onChoose(Number(event.target.value))}>
        {versions.map(({ content, state, draftedAt }) => (
          <option key={content.version} value={content.version}>
            Version {content.version}, {STATE_WORDS[state]}, {whenWords(draftedAt)}
          </option>
        ))}
      </select>
    </label>
  );
}

export function Compare({ id }: { readonly id: string }) {
  const book = useMixes();
  const people = useLive((live) => live.people);
  const [chosen, setChosen] = useState<{ readonly was: number | null; readonly now: number | null }>({
    was: null,
    now: null,
  });
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  const mix = view.mixes.find((one) => one.id === id);
  if (mix === undefined)
    return (
      <section className="card">
        <p>
          There is no mix {id}. <Link href="/yard/mixes">See all mixes</Link>
        </p>
      </section>
    );
  const newest = mix.versions[0] as MixVersion;
  const now = mix.versions.find((one) => one.content.version === chosen.now) ?? newest;
  const was =
    mix.versions.find((one) => one.content.version === chosen.was) ??
    mix.versions.find((one) => one.state === 'approved' && one !== now) ??
    mix.versions.find((one) => one !== now) ??
    now;
  const rows = differences(was.content, now.content);
  return (
    <section className="card stack mx" aria-labelledby="mx-compare">
      <div className="mx-head">
        <h2 id="mx-compare">{mix.name}: what differs</h2>
        <span className="row mx-head-acts">
          <Link href="/yard/mixes" className="button">
            All mixes
          </Link>
        </span>
      </div>
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      <div className="mx-choose">
        <Chooser
          label="Was"
          versions={mix.versions}
          chosen={was.content.version}
          onChoose={(version) => setChosen({ was: version, now: now.content.version })}
        />
        <Chooser
          label="Is to be"
          versions={mix.versions}
          chosen={now.content.version}
          onChoose={(version) => setChosen({ was: was.content.version, now: version })}
        />
      </div>
      {rows.length === 0 ? (
        <p className="soft">
          {was === now ? 'Both are the same version: choose another.' : 'They say the same in every field.'}
        </p>
      ) : (
        <div className="mx-scroll">
          <table className="mx-table mx-diff">
            <thead>
              <tr>
                <th scope="col">Field</th>
                <th scope="col">Version {was.content.version}</th>
                <th scope="col">Version {now.content.version}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.path}>
                  <th scope="row">{row.field}</th>
                  <td>{row.was === null ? <span className="soft">not there</span> : <del>{row.was}</del>}</td>
                  <td>{row.now === null ? <span className="soft">not there</span> : <ins>{row.now}</ins>}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p className="soft">
        Version {now.content.version} was drafted by {nameOf(now.draftedBy, people)} on{' '}
        {whenWords(now.draftedAt)}: {now.why}.
      </p>
      <div className="row">
        <VersionActions version={now} inForce={mix.inForce} book={book} />
      </div>
    </section>
  );
}
