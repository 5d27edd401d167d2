/** Specifications in force: limits with source and status, frequencies, rules, and where a mix and its limits cannot both be right. */
import { useState } from 'react';
import { Link } from 'wouter';
import { contradictionsOf } from '../../../machines/lab/judge/index.ts';
import { conditionWords, limitWords } from '../../../machines/lab/judge/limits.ts';
import type { MixNote } from '../../../machines/lab/state.ts';
import type { Limit, Specification } from '../../../machines/scenario/specification.schema.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { stoneOf } from '../book-like.ts';
import { useLab } from '../data.ts';
import { LabFrame } from '../frame.tsx';
import { LabStanding } from '../standing.tsx';
import { propertyWords } from '../words.ts';
import './specifications.css';

const STATUS_SHAPE: { readonly [K in Limit['status']]: Shape } = {
  published: 'dot',
  'common practice': 'ring',
  'from memory': 'diamond',
};

const VERDICT_RULE: { readonly [K in Specification['verdict']['rule']]: string } = {
  each: 'Each result on its own',
  mean: 'The mean of the results',
  'share within': 'The estimated share of the lot within its limits',
};

export function SpecificationsPage() {
  const lab = useLab();
  const { specifications, mixes } = lab.view;
  const [chosen, setChosen] = useState<string | null>(null);
  const keyOf = (spec: Specification): string => `${spec.id}@${spec.version}`;
  const spec = specifications.find((one) => keyOf(one) === chosen) ?? specifications[0] ?? null;
  return (
    <LabFrame title="Lab" under="What a lot must hold before it may leave, and where each figure comes from.">
      <LabStanding lab={lab}>
        <div className="row">
          <Link className="button" href="/lab/specifications/seal">
            How samples are sealed, and how to check it by hand
          </Link>
        </div>
        {spec === null ? (
          <p className="card empty">
            The shift at hand was opened without a specification. Name one in a mix file (specification: its
            id), then open the next shift.
          </p>
        ) : (
          <>
            <fieldset className="row" aria-label="Which specification">
              {specifications.map((one) => (
                <button
                  key={keyOf(one)}
                  type="button"
                  className="button"
                  aria-pressed={one === spec}
                  onClick={() => setChosen(keyOf(one))}
                >
                  {one.name}, version {one.version}
                </button>
              ))}
            </fieldset>
            <Spec
              spec={spec}
              mixes={mixes.filter((mix) => mix.specification === spec.id)}
              gradings={stoneOf(lab.view)}
            />
          </>
        )}
      </LabStanding>
    </LabFrame>
  );
}

function Spec({
  spec,
  mixes,
  gradings,
}: {
  readonly spec: Specification;
  readonly mixes: readonly MixNote[];
  readonly gradings: ReturnType<typeof stoneOf>;
}) {
  const own = contradictionsOf(spec, null, { absorptionPct: null });
  const withMixes = mixes.map((mix) => ({
    mix,
    found: contradictionsOf(spec, mix, { absorptionPct: null, gradings }),
  }));
  const none = own.length === 0 && withMixes.every(({ found }) => found.length === 0);
  return (
    <div className="stack">
      <section className="card stack" aria-labelledby="against-head">
        <h2 id="against-head">Mix against limits</h2>
        {none ? (
          <p className="soft">
            {mixes.length === 0
              ? 'No mix of this shift names it; within itself it is without contradiction.'
              : 'Nothing the mixes are made to contradicts these limits.'}
          </p>
        ) : (
          <>
            {withMixes.map(({ mix, found }) => (
              <div key={`${mix.id}@${mix.version}`} className="stack">
                <h3>
                  {mix.name} <span className="soft num">version {mix.version}</span>
                </h3>
                {found.length === 0 ? (
                  <p className="soft">Nothing it is made to contradicts these limits.</p>
                ) : (
                  <ul className="departures">
                    {found.map(({ kind, words }) => (
                      <li key={words}>
                        <Mark shape={kind === 'edge' ? 'diamond' : 'triangle'} />
                        {words}
                      </li>
                    ))}
                  </ul>
                )}
              </div>
            ))}
            {mixes.length === 0 && (
              <ul className="departures">
                {own.map(({ words }) => (
                  <li key={words}>
                    <Mark shape="triangle" />
                    {words}
                  </li>
                ))}
              </ul>
            )}
          </>
        )}
      </section>
      <section className="card stack" aria-labelledby="limits-head">
        <h2 id="limits-head">Limits</h2>
        <p className="soft-line">{spec.source}</p>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
        <section className="lab-table" aria-label="Limits, scrolls sideways" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">Property</th>
                <th scope="col">Limit</th>
                <th scope="col">Applies</th>
                <th scope="col">Status</th>
                <th scope="col">Source</th>
              </tr>
            </thead>
            <tbody>
              {spec.limits.map((limit) => (
                <tr key={`${limit.property}${limit.from}${limit.to}${conditionWords(limit)}`}>
                  <th scope="row">{propertyWords(limit.property)}</th>
                  <td className="num">{limit.property === 'workable' ? 'yes' : limitWords(limit)}</td>
                  <td>{conditionWords(limit) === '' ? 'always' : conditionWords(limit)}</td>
                  <td>
                    <span className="status-word">
                      <Mark shape={STATUS_SHAPE[limit.status]} />
                      {limit.status}
                    </span>
                  </td>
                  <td className="soft">{limit.source}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </section>
      <div className="lot-halves">
        <section className="card stack" aria-labelledby="freq-head">
          <h2 id="freq-head">Samples of a lot</h2>
          <table className="kept-readings">
            <thead>
              <tr>
                <th scope="col">Test</th>
                <td>full lot</td>
                <td>short lot</td>
              </tr>
            </thead>
            <tbody>
              {Object.entries(spec.frequencies).map(([test, n]) => (
                <tr key={test}>
                  <th scope="row">{test}</th>
                  <td className="num">{n}</td>
                  <td className="num">
                    {(spec.shortLot.frequencies as { readonly [test: string]: number })[test] ?? 0}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="soft-line">
            Where a test takes several, the lot is cut into as many equal parts and one tonnage is drawn in
            each (ASTM D3665). A lot below {spec.shortLot.belowPct} % of its mass is short.{' '}
            {spec.shortLot.why}
          </p>
        </section>
        <section className="card stack" aria-labelledby="rules-head">
          <h2 id="rules-head">Rules</h2>
          <dl className="rules">
            <div>
              <dt>Verdict</dt>
              <dd>
                {VERDICT_RULE[spec.verdict.rule]}
                {Object.entries(spec.verdict.byTest).map(
                  ([test, rule]) => `; ${test}: ${VERDICT_RULE[rule].toLowerCase()}`,
                )}
                . {spec.verdict.why}
              </dd>
            </div>
            <div>
              <dt>Retest</dt>
              <dd>
                At most {spec.retest.most} a sample; what counts is {spec.retest.counts}. {spec.retest.why}
              </dd>
            </div>
            <div>
              <dt>Missed sample</dt>
              <dd>{spec.missedSample.why}</dd>
            </div>
            <div>
              <dt>Keeps</dt>
              <dd>
                {spec.shelfLife.days} days ({spec.shelfLife.source}, {spec.shelfLife.status}); retained
                portions {spec.retained.days} days
              </dd>
            </div>
          </dl>
        </section>
      </div>
    </div>
  );
}
