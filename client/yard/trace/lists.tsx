/** What a trace found as lists: patches with tonnes, where the rest is, batches with their sheets, what a patch is made of. */

import { Link } from 'wouter';
import type { Traced } from '../../../machines/yard/trace/traced.types.ts';
import { plural } from '../../format/format.ts';
import { PersonName } from '../../parts/person-name.tsx';
import { pathOf } from './asked.ts';
import { LEFT_WORDS, massWords, NODE_WORDS, nodeName, timeWords } from './words.ts';

export function PatchList({ traced }: { readonly traced: Traced }) {
  const { patches, affectedPatchGrams } = traced;
  return (
    <section className="card stack" aria-labelledby="tr-patches">
      <div className="tr-head">
        <h2 id="tr-patches">Patches</h2>
        <span>
          <strong>{plural(patches.length, 'patch', 'patches')}</strong> with{' '}
          <strong>{massWords(affectedPatchGrams)}</strong> of mix
        </span>
      </div>
      {patches.length === 0 ? (
        <p className="soft">None of it has been laid in a patch.</p>
      ) : (
        <div className="tr-scroll">
          <table className="tr-table">
            <thead>
              <tr>
                <th scope="col">Patch</th>
                <th scope="col">Where</th>
                <th scope="col">Laid</th>
                <th scope="col">By</th>
                <th scope="col">Loads and lots</th>
                <th scope="col" className="num">
                  Mix affected
                </th>
                <th scope="col" className="num">
                  Of it, by share
                </th>
              </tr>
            </thead>
            <tbody>
              {patches.map((one) => (
                <tr key={one.patch}>
                  <td>
                    <Link href={pathOf({ kind: 'patch', id: one.patch })}>{one.patch}</Link>
                  </td>
                  <td>{one.place}</td>
                  <td className="num">{timeWords(one.laidAt)}</td>
                  <td>
                    <PersonName id={one.by} />
                  </td>
                  <td className="soft">{[...one.loads, ...one.lots].join(', ')}</td>
                  <td className="num">{massWords(one.affectedGrams)}</td>
                  <td className="num">{massWords(one.shareGrams)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

export function LeftList({ traced }: { readonly traced: Traced }) {
  const { left } = traced;
  if (left.length === 0) return null;
  return (
    <section className="card stack" aria-labelledby="tr-left">
      <h2 id="tr-left">Not in a patch</h2>
      <div className="tr-scroll">
        <table className="tr-table">
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">Name</th>
              <th scope="col" className="num">
                Mix affected
              </th>
              <th scope="col" className="num">
                Of it, by share
              </th>
            </tr>
          </thead>
          <tbody>
            {left.map((one) => (
              <tr key={`${one.kind} ${one.id}`}>
                <td>{LEFT_WORDS[one.kind]}</td>
                <td>
                  {one.kind === 'lot' || one.kind === 'load' || one.kind === 'batch' ? (
                    <Link href={pathOf({ kind: one.kind, id: one.id })}>{one.id}</Link>
                  ) : (
                    one.id
                  )}
                </td>
                <td className="num">{massWords(one.affectedGrams)}</td>
                <td className="num">{massWords(one.shareGrams)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

export function MadeOf({ traced }: { readonly traced: Traced }) {
  if (traced.direction === 'forward') return null;
  return (
    <section className="card stack" aria-labelledby="tr-made">
      <h2 id="tr-made">What it is made of</h2>
      <div className="tr-scroll">
        <table className="tr-table">
          <thead>
            <tr>
              <th scope="col">From</th>
              <th scope="col">Name</th>
              <th scope="col" className="num">
                In this patch
              </th>
            </tr>
          </thead>
          <tbody>
            {traced.madeOf.map(({ kind, id, grams }) => (
              <tr key={`${kind} ${id}`}>
                <td>{kind === null ? 'not on record' : NODE_WORDS[kind]}</td>
                <td>
                  {kind === 'delivery' && id !== 'MAINS' ? (
                    <Link href={pathOf({ kind, id })}>{nodeName({ kind, id })}</Link>
                  ) : kind === null ? (
                    '–'
                  ) : (
                    nodeName({ kind, id })
                  )}
                </td>
                <td className="num">{massWords(grams)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

const BATCHES_SHOWN = 60;

export function BatchList({ traced }: { readonly traced: Traced }) {
  const { batches } = traced;
  if (batches.length === 0) return null;
  const shown = batches.slice(0, BATCHES_SHOWN);
  return (
    <details className="card tr-batches" open={batches.length <= 12}>
      <summary>
        <h2>Batches</h2>{' '}
        <span className="soft">
          {plural(batches.length, 'batch', 'batches')}, each with its sheet and sensor traces
        </span>
      </summary>
      <div className="tr-scroll">
        <table className="tr-table">
          <thead>
            <tr>
              <th scope="col">Batch</th>
              <th scope="col">Mix</th>
              <th scope="col">Made</th>
              <th scope="col">By</th>
              <th scope="col" className="num">
                Of it, by share
              </th>
              <th scope="col">
                <span className="hidden-words">Look into it</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((one) => (
              <tr key={one.batch}>
                <td>
                  <Link href={pathOf({ kind: 'batch', id: one.batch })}>{one.batch}</Link>
                </td>
                <td>{one.mix}</td>
                <td className="num">{timeWords(one.at)}</td>
                <td>
                  <PersonName id={one.by} />
                </td>
                <td className="num">{massWords(one.shareGrams)}</td>
                <td className="tr-links">
                  {one.shift > 0 && (
                    <>
                      <Link href={`/records/reports?kind=batch&shift=${one.shift}&batch=${one.number}`}>
                        Sheet and traces
                      </Link>
                      <Link href={`/replay?shift=${one.shift}`}>Replay</Link>
                    </>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {batches.length > shown.length && (
        <p className="soft">
          The first {shown.length} of {batches.length}; all of them are in the CSV.
        </p>
      )}
    </details>
  );
}
