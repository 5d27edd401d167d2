/** One recall worked through: every patch it is about now, what was done about each, closed by a person with a remark. */

import { useState } from 'react';
import { Link } from 'wouter';
import { TICKS, type TickWhat } from '../../../machines/yard/trace/recalls/facts.ts';
import type { Recall, Tick } from '../../../machines/yard/trace/recalls/state.ts';
import type { Traced, TracedPatch } from '../../../machines/yard/trace/traced.types.ts';
import { BookWaiting } from '../../parts/book-waiting.tsx';
import { ConfirmDialog } from '../../parts/confirm.tsx';
import { Mark } from '../../parts/mark.tsx';
import { PersonName } from '../../parts/person-name.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { pathOf, queryOf } from './asked.ts';
import { useGot } from './use-got.ts';
import { type RecallsHere, useRecalls } from './use-recalls.ts';
import { massWords, timeWords } from './words.ts';

const standing = (ticks: readonly Tick[] | undefined): readonly Tick[] =>
  (ticks ?? []).filter(({ back }) => back === null);

function PatchRow({
  patch,
  recall,
  book,
  onBack,
}: {
  readonly patch: TracedPatch;
  readonly recall: Recall;
  readonly book: RecallsHere;
  readonly onBack: (tick: Tick) => void;
}) {
  const ticks = standing(recall.ticks[patch.patch]);
  const has = (what: TickWhat) => ticks.find((tick) => tick.what === what);
  const mark = (what: TickWhat): void =>
    void book.put(
      { do: 'tickPatch', recall: recall.id, patch: patch.patch, what, note: '' },
      `Patch ${patch.patch}: ${what}.`,
    );
  return (
    <li className={ticks.length === 0 ? 'tr-patch open' : 'tr-patch'}>
      <div className="tr-patch-what">
        <span className="tr-patch-name">
          {ticks.length === 0 ? <Mark shape="ring" /> : <Mark shape="check" />}
          <Link href={pathOf({ kind: 'patch', id: patch.patch })}>{patch.patch}</Link>
          <strong>{patch.place}</strong>
        </span>
        <span className="soft">
          Laid {timeWords(patch.laidAt)} by <PersonName id={patch.by} />, {massWords(patch.affectedGrams)} of
          mix, {[...patch.loads, ...patch.lots].join(', ')}
        </span>
        {ticks.map((tick) => (
          <span key={tick.n} className="soft">
            {tick.what}, {timeWords(tick.at)} by <PersonName id={tick.by} />
            {tick.note === '' ? '' : `: ${tick.note}`}
          </span>
        ))}
      </div>
      {recall.closed === null && (
        <fieldset className="tr-ticks no-print">
          <legend className="hidden-words">What was done about {patch.patch}</legend>
          {TICKS.map((what) => {
            const tick = has(what);
            return (
              <button
                key={what}
                type="button"
                className="button"
                aria-pressed={tick !== undefined}
                onClick={() => (tick === undefined ? mark(what) : onBack(tick))}
              >
                {tick !== undefined && <Mark shape="check" />}
                {what}
              </button>
            );
          })}
        </fieldset>
      )}
    </li>
  );
}

type Dialog =
  | { readonly is: 'back'; readonly patch: string; readonly tick: Tick }
  | { readonly is: 'close' | 'reopen' };

export function RecallPage({ id }: { readonly id: string }) {
  const book = useRecalls();
  const recall = book.view?.recalls.find((one) => one.id === id);
  const got = useGot<Traced>(recall === undefined ? null : `/api/trace?${queryOf(recall.from)}`);
  const [dialog, setDialog] = useState<Dialog | null>(null);
  if (book.view === null)
    return <BookWaiting what="the list of recalls" error={book.error} onAgain={book.again} />;
  if (recall === undefined)
    return (
      <p className="card">
        There is no recall {id} in the book: see the <Link href="/yard/trace/recalls">list of recalls</Link>,
        or the Records page for old ones.
      </p>
    );
  const patches = got.value?.patches ?? [];
  const done = patches.filter(({ patch }) => standing(recall.ticks[patch]).length > 0).length;
  const isOpen = recall.closed === null;
  return (
    <>
      <section className="card stack">
        <div className="tr-head">
          <h2>
            Recall {recall.id} {!isOpen && <span className="tag">closed</span>}
          </h2>
          <div className="row no-print">
            <Link className="button" href={pathOf(recall.from)}>
              See the flow
            </Link>
            <button type="button" className="button" onClick={() => window.print()}>
              Print
            </button>
            <button
              type="button"
              className={isOpen ? 'button primary' : 'button'}
              onClick={() => setDialog({ is: isOpen ? 'close' : 'reopen' })}
            >
              {isOpen ? 'Close it…' : 'Open it again…'}
            </button>
          </div>
        </div>
        <p>
          {recall.words}. Opened {timeWords(recall.at)} by <PersonName id={recall.by} />: {recall.reason}
        </p>
        {recall.closed !== null && (
          <p>
            Closed {timeWords(recall.closed.at)} by <PersonName id={recall.closed.by} />:{' '}
            {recall.closed.remark}
          </p>
        )}
        <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
        <p className="tr-progress">
          <progress max={Math.max(1, patches.length)} value={done} aria-label="Patches seen to" />
          <span>
            <strong>
              {done} of {patches.length}
            </strong>{' '}
            patches seen to
          </span>
        </p>
      </section>
      {got.because !== null && (
        <p className="card" role="alert">
          {got.because.join(' ')}
        </p>
      )}
      {got.value !== null && (
        <section className="card stack" aria-label="Patches to work through">
          {patches.length === 0 && <p className="soft">None of it lies in a patch.</p>}
          <ul className="tr-patches">
            {patches.map((patch) => (
              <PatchRow
                key={patch.patch}
                patch={patch}
                recall={recall}
                book={book}
                onBack={(tick) => setDialog({ is: 'back', patch: patch.patch, tick })}
              />
            ))}
          </ul>
        </section>
      )}
      {dialog?.is === 'back' && (
        <ConfirmDialog
          title={`Take back “${dialog.tick.what}”`}
          words={`It was marked ${timeWords(dialog.tick.at)} by ${dialog.tick.by}, and stays in the record as taken back.`}
          go="Take it back"
          needsReason
          onClose={() => setDialog(null)}
          onGo={(reason) => {
            const { patch, tick } = dialog;
            setDialog(null);
            void book.put({ do: 'takeBackTick', recall: recall.id, patch, n: tick.n, reason }, 'Taken back.');
          }}
        />
      )}
      {(dialog?.is === 'close' || dialog?.is === 'reopen') && (
        <ConfirmDialog
          title={dialog.is === 'close' ? `Close recall ${recall.id}` : `Open recall ${recall.id} again`}
          words={
            dialog.is === 'close'
              ? `${done} of ${patches.length} patches have been seen to.`
              : 'What was marked stays as it is.'
          }
          go={dialog.is === 'close' ? 'Close it' : 'Open it again'}
          needsReason
          onClose={() => setDialog(null)}
          onGo={(reason) => {
            const closing = dialog.is === 'close';
            setDialog(null);
            void book.put(
              closing
                ? { do: 'closeRecall', recall: recall.id, remark: reason }
                : { do: 'reopenRecall', recall: recall.id, reason },
              closing ? 'Recall closed.' : 'Recall open again.',
            );
          }}
        />
      )}
    </>
  );
}
