/** Puts what was worked out into the record as a draft: the next version of this mix, or a new mix. */
import { type FormEvent, useId, useState } from 'react';
import { useLocation } from 'wouter';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { Difference } from '../../../machines/yard/mixes/difference.ts';
import type { MixView } from '../../../machines/yard/mixes/view.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import type { MixesHere } from './use-mixes.ts';

export function PutDialog({
  mix,
  content,
  from,
  changes,
  book,
  onClose,
  onDone,
}: {
  readonly mix: MixView;
  readonly content: Mix;
  readonly from: { readonly mix: string; readonly version: number };
  readonly changes: readonly Difference[];
  readonly book: MixesHere;
  readonly onClose: () => void;
  readonly onDone: () => void;
}) {
  const [why, setWhy] = useState('');
  const [as, setAs] = useState<'version' | 'mix'>('version');
  const [newId, setNewId] = useState('');
  const [name, setName] = useState('');
  const [, go] = useLocation();
  const id = useId();
  const next = (mix.versions[0]?.content.version ?? 0) + 1;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const put = as === 'version' ? content : { ...content, id: newId.trim(), name: name.trim() };
    const done = await book.put(
      { do: 'draftMix', content: put, why: why.trim(), from },
      `The draft is in the record.`,
    );
    if (!done) return;
    onDone();
    go('/yard/mixes');
  };
  return (
    <Dialog title="Put in as a draft" onClose={onClose}>
      <form className="stack" onSubmit={(event) => void submit(event)} noValidate>
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <div className="field">
          <label htmlFor={`${id}-as`}>It becomes</label>
          <select
            id={`${id}-as`}
            value={as}
            onChange={(event) => setAs(event.target.value === 'mix' ? 'mix' : 'version')}
          >
            <option value="version">
              Version {next} of {mix.name}
            </option>
            <option value="mix">Version 1 of a new mix</option>
          </select>
        </div>
        {as === 'mix' && (
          <>
            <div className="field">
              <label htmlFor={`${id}-name`}>Name</label>
              <input
                id={`${id}-name`}
                type="text"
                value={name}
                maxLength={60}
                onChange={(event) => setName(event.target.value)}
              />
            </div>
            <div className="field">
              <label htmlFor={`${id}-id`}>Id</label>
              <input
                id={`${id}-id`}
                type="text"
                value={newId}
                maxLength={40}
                aria-describedby={`${id}-id-help`}
                onChange={(event) => setNewId(event.target.value)}
              />
              <span id={`${id}-id-help`} className="soft">
                Lower-case letters, digits and hyphens; it never changes afterwards.
              </span>
            </div>
          </>
        )}
        <div className="field">
          <label htmlFor={`${id}-why`}>Why, kept in the record</label>
          <textarea
            id={`${id}-why`}
            rows={2}
            maxLength={300}
            value={why}
            onChange={(event) => setWhy(event.target.value)}
          />
        </div>
        <details open={changes.length <= 6}>
          <summary>
            What differs from version {from.version} ({changes.length})
          </summary>
          <ul className="mx-changes">
            {changes.map((one) => (
              <li key={one.path}>
                {one.field}: <del>{one.was ?? 'not there'}</del> → <ins>{one.now ?? 'not there'}</ins>
              </li>
            ))}
          </ul>
        </details>
        <p className="soft">
          A draft is made by nobody until it is approved
          {content.family === 'cutback' ? ', and a cutback mix by somebody else than its author' : ''}.
        </p>
        <div className="row dialog-actions">
          <button type="button" className="button" onClick={onClose}>
            Back
          </button>
          <button type="submit" className="button primary" aria-busy={book.asked.waiting}>
            Put in the draft
          </button>
        </div>
      </form>
    </Dialog>
  );
}
