/** Every job mix with its versions: which is in force, which wait for approval, and who stands behind each. */
import { Link } from 'wouter';
import type { MixView } from '../../../machines/yard/mixes/view.ts';
import { plural } from '../../format/format.ts';
import { useLive } from '../../live/store.ts';
import { Mark } from '../../parts/mark.tsx';
import { Refusal } from '../../parts/refusal.tsx';
import { hasDraft } from './use-draft.ts';
import { type MixesHere, useMixes } from './use-mixes.ts';
import { VersionActions } from './version-actions.tsx';
import { BookWaiting } from './waiting.tsx';
import { nameOf, STATE_SHAPE, STATE_WORDS, whenWords } from './words.ts';

const SHOWN = 4;

function Versions({ mix, book }: { readonly mix: MixView; readonly book: MixesHere }) {
  const people = useLive((live) => live.people);
  const shown = mix.versions.slice(0, SHOWN);
  return (
    <div className="mx-scroll">
      <table className="mx-table mx-versions">
        <thead>
          <tr>
            <th scope="col">Version</th>
            <th scope="col">State</th>
            <th scope="col">Drafted</th>
            <th scope="col">Why</th>
            <th scope="col">Approved</th>
            <th scope="col">
              <span className="hidden-words">What can be done</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map((version) => (
            <tr key={version.content.version} className={version.state === 'withdrawn' ? 'mx-gone' : ''}>
              <th scope="row" className="num">
                {version.content.version}
              </th>
              <td>
                <span className={`mx-state ${version.state}`}>
                  <Mark shape={STATE_SHAPE[version.state]} /> {STATE_WORDS[version.state]}
                </span>
              </td>
              <td>
                {nameOf(version.draftedBy, people)}
                <span className="soft mx-when num">{whenWords(version.draftedAt)}</span>
              </td>
              <td className="mx-why">
                {version.why}
                {version.withdrawn !== null && (
                  <span className="soft mx-when">
                    withdrawn by {nameOf(version.withdrawn.by, people)}: {version.withdrawn.reason}
                  </span>
                )}
                {version.differs !== null && (
                  <span className="warn-words mx-when">
                    <Mark shape="triangle" /> {version.differs}
                  </span>
                )}
              </td>
              <td>
                {version.approvedAt === null ? (
                  <span className="soft">–</span>
                ) : (
                  <>
                    {nameOf(version.approvedBy, people)}
                    <span className="soft mx-when num">{whenWords(version.approvedAt)}</span>
                  </>
                )}
              </td>
              <td>
                <div className="row mx-acts">
                  <VersionActions version={version} inForce={mix.inForce} book={book} />
                </div>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {mix.versions.length > SHOWN && (
        <p className="soft">
          {plural(mix.versions.length - SHOWN, 'older version')}: see them under Compare versions.
        </p>
      )}
    </div>
  );
}

export function Overview() {
  const book = useMixes();
  const { view } = book;
  if (view === null) return <BookWaiting error={book.error} onAgain={book.again} />;
  return (
    <div className="stack mx">
      <Refusal because={book.asked.refusal} onClose={book.asked.clear} />
      {view.mixes.length === 0 && (
        <section className="card">
          <p className="soft">No mix yet. The first shift brings the mixes of its files.</p>
        </section>
      )}
      {view.mixes.map((mix) => (
        <section key={mix.id} className="card stack" aria-labelledby={`mx-${mix.id}`}>
          <div className="mx-head">
            <h2 id={`mx-${mix.id}`}>{mix.name}</h2>
            <span className="tag">{mix.family}</span>
            <span className="soft">{mix.id}</span>
            <span className="mx-inforce">
              {mix.inForce === null ? (
                <span className="warn-words">
                  <Mark shape="triangle" /> no version is in force
                </span>
              ) : (
                <>version {mix.inForce} is in force</>
              )}
              {mix.running !== null && mix.running !== mix.inForce && (
                <span className="soft">; this shift makes version {mix.running}</span>
              )}
            </span>
            <span className="row mx-head-acts">
              {mix.versions.length > 1 && (
                <Link href={`/yard/mixes/${mix.id}/compare`} className="button">
                  Compare versions
                </Link>
              )}
              <Link href={`/yard/mixes/${mix.id}`} className="button primary">
                {hasDraft(mix.id) ? 'Go on working on it' : 'Open the sheet'}
              </Link>
            </span>
          </div>
          <Versions mix={mix} book={book} />
        </section>
      ))}
    </div>
  );
}
