/** The seal of a lot's samples: what was committed, what was opened, how to check it by hand, and the check made here. */
import { useMemo } from 'react';
import { Link, useLocation } from 'wouter';
import { planText } from '../../../machines/lab/plan.ts';
import { sealFindings, sha256Hex } from '../../../machines/lab/seal-check.ts';
import type { LabLot } from '../../../machines/lab/state.ts';
import { formatTonnes } from '../../format/format.ts';
import { say } from '../../live/said.ts';
import { Mark } from '../../parts/mark.tsx';
import { useLab, workingLot } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import './specifications.css';

export function SealPage({ id }: { readonly id: string | null }) {
  const lab = useLab();
  const [, go] = useLocation();
  const sealed = lab.view.working.filter(({ plan }) => plan !== null);
  const lot = id === null ? (sealed[0] ?? null) : workingLot(lab.view, id);
  return (
    <LabFrame
      title="Lab"
      under="Neither operator nor officer can choose the easy batch, and anybody can check that."
    >
      <LabStanding lab={lab}>
        <section className="card stack" aria-labelledby="how-head">
          <h2 id="how-head">How samples are sealed</h2>
          <ol className="next-steps">
            <li>When a lot opens, a tonnage is drawn for each of its samples, from a secret of the shift.</li>
            <li>
              The plan, with a number nobody can guess, is hashed (SHA-256); the hash goes into the record at
              once. From then on the plan cannot be changed without being found out.
            </li>
            <li>Each sample is called when the next discharge reaches its tonnage, and not before.</li>
            <li>When the lot is closed, the whole plan is opened. Its hash must be the one in the record.</li>
          </ol>
        </section>
        {sealed.length > 0 && (
          <div className="row">
            <label htmlFor="seal-lot">Lot</label>
            <select
              id="seal-lot"
              className="narrow"
              value={lot?.lot ?? ''}
              onChange={(event) => go(`/lab/specifications/seal/${event.target.value}`)}
            >
              {id !== null && lot === null && <option value="">{id}</option>}
              {sealed.map((one) => (
                <option key={one.lot}>{one.lot}</option>
              ))}
            </select>
          </div>
        )}
        {lot === null ? (
          <p className="card empty">
            {id === null
              ? 'No lot with a sealed plan yet: the first batch of a mix that names a specification opens one.'
              : `The lab’s book has no lot ${id} at hand.`}
          </p>
        ) : lot.plan === null ? (
          <p className="card empty">
            Lot {lot.lot} has no sealed plan: its mix names no specification.{' '}
            <Link href={`/lab/lots/${lot.lot}`}>The lot</Link>
          </p>
        ) : (
          <Seal lot={lot} plan={lot.plan} />
        )}
      </LabStanding>
    </LabFrame>
  );
}

function Seal({ lot, plan }: { readonly lot: LabLot; readonly plan: NonNullable<LabLot['plan']> }) {
  const { nonce, atKg, commitment } = plan;
  const text = useMemo(
    () =>
      nonce === null || atKg === null
        ? null
        : planText(
            lot.lot,
            nonce,
            lot.samples.map(({ n, test }, i) => ({ n, test, atKg: atKg[i] ?? 0 })),
          ),
    [lot, nonce, atKg],
  );
  const hash = useMemo(() => (text === null ? null : sha256Hex(text)), [text]);
  const findings = useMemo(() => (text === null ? [] : sealFindings(lot)), [lot, text]);
  const command = text === null ? '' : `printf '%s' '${text}' | sha256sum`;
  return (
    <article className="stack" aria-labelledby="seal-head">
      <section className="card stack">
        <h2 id="seal-head">Lot {lot.lot}</h2>
        <dl className="rules">
          <div>
            <dt>Committed when it opened</dt>
            <dd className="num hash">{commitment}</dd>
          </div>
          <div>
            <dt>Opened</dt>
            <dd className="num hash">
              {text === null ? 'not yet: the lot is still being filled, so its plan stays sealed' : text}
            </dd>
          </div>
        </dl>
        {hash !== null && (
          <p className={findings.length === 0 ? 'seal-says' : 'seal-says wants-words'} role="status">
            <Mark shape={findings.length === 0 ? 'check' : 'triangle'} />
            <span>
              Checked in this browser just now: the hash of what was opened is{' '}
              <span className="num hash">{hash}</span>,{' '}
              {hash === commitment ? 'the one committed' : 'NOT the one committed'}
              {findings.length === 0 ? '; each sample lies in its part and was called in time.' : '.'}
            </span>
          </p>
        )}
        {findings.length > 0 && (
          <ul className="departures">
            {findings.map((words) => (
              <li key={words}>
                <Mark shape="triangle" />
                {words}
              </li>
            ))}
          </ul>
        )}
      </section>
      {text !== null && (
        <section className="card stack" aria-labelledby="hand-head">
          <h2 id="hand-head">Check it by hand</h2>
          <p>On any computer with a shell, this line prints the hash; compare it with the one committed.</p>
          <pre className="shell">
            <code>{command}</code>
          </pre>
          <div className="row">
            <button
              type="button"
              className="button"
              onClick={() =>
                void navigator.clipboard
                  ?.writeText(command)
                  .then(() => say('Copied.'))
                  .catch(() => say('Not copied: mark the line and copy it.'))
              }
            >
              Copy the line
            </button>
          </div>
          <p className="soft-line">
            The commitment itself is the fact “samples planned” of lot {lot.lot} in the record, written right
            after the lot opened; `patchyard verify` checks every opened plan the same way.
          </p>
        </section>
      )}
      <section className="card lab-table">
        <table>
          <thead>
            <tr>
              <th scope="col">Sample</th>
              <th scope="col">Test</th>
              <th scope="col">Part</th>
              <th scope="col">Drawn at</th>
              <th scope="col">Called at</th>
            </tr>
          </thead>
          <tbody>
            {lot.samples.map((sample, i) => (
              <tr key={sample.n}>
                <th scope="row" className="num">
                  {sample.n}
                </th>
                <td>{sample.test}</td>
                <td className="num">
                  {sample.part} of {sample.ofParts}
                </td>
                <td className="num">
                  {atKg === null ? <span className="soft">sealed</span> : formatTonnes(atKg[i] ?? 0)}
                </td>
                <td className="num">
                  {sample.atKg === null ? (
                    <span className="soft">{lot.closedAt === null ? 'not yet' : 'not reached'}</span>
                  ) : (
                    formatTonnes(sample.atKg)
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </article>
  );
}
