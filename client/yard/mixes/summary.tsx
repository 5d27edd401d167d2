/** The mix in a few figures, what is wrong with it, and the buttons that undo it or put it in as a draft. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { Mix } from '../../../machines/scenario/mix.schema.ts';
import type { Specification } from '../../../machines/scenario/specification.schema.ts';
import { differences } from '../../../machines/yard/mixes/difference.ts';
import type { Finding } from '../../../machines/yard/mixes/findings.ts';
import type { MixSheet } from '../../../machines/yard/mixes/sheet.ts';
import type { MixView } from '../../../machines/yard/mixes/view.ts';
import { plural } from '../../format/format.ts';
import { Mark, type Shape } from '../../parts/mark.tsx';
import { PutDialog } from './put-dialog.tsx';
import type { DraftHere } from './use-draft.ts';
import type { MixesHere } from './use-mixes.ts';
import { figure, range, STATE_WORDS } from './words.ts';

const SHAPE: { readonly [W in Finding['weight']]: Shape } = {
  stop: 'square',
  warn: 'triangle',
  note: 'ring',
};
const WORD: { readonly [W in Finding['weight']]: string } = { stop: 'Stop', warn: 'Look', note: 'Note' };

export const PARTS = [
  ['blend', 'Blend'],
  ['binder', 'Binder'],
  ['weights', 'Weights'],
  ['temperatures', 'Temperatures'],
  ['sensitivity', 'What if'],
  ['cost', 'Cost'],
  ['rest', 'All else'],
  ['trials', 'Trials'],
] as const;

function Figures({ sheet, content }: { readonly sheet: MixSheet; readonly content: Mix }) {
  const { blend, binder, temperatures, cost } = sheet;
  const outside = blend.sieves.filter((sieve) => sieve.insidePct < -0.05).length;
  const rows: readonly (readonly [string, string, string])[] = [
    [
      'Grading',
      blend.sieves.length === 0
        ? 'no band'
        : outside === 0
          ? 'in its band'
          : `${plural(outside, 'sieve')} out`,
      '',
    ],
    [
      'Residual binder, of mix',
      `${figure(binder.residueOfMixPct)} %`,
      binder.asked.from === null && binder.asked.to === null
        ? ''
        : `asked ${range(binder.asked.from, binder.asked.to, '%')}`,
    ],
    ['Film on the stone', `${figure(binder.filmUm, 1)} µm`, ''],
    ...(binder.fluids === null
      ? []
      : [
          [
            'Total fluids',
            `${figure(binder.fluids.totalPct, 1)} %`,
            `most ${figure(binder.fluids.mostPct, 1)} %`,
          ] as const,
        ]),
    ['Batch', `${figure(content.batchKg, 0)} kg`, `${figure(sheet.weights.targets.binderKg, 1)} kg binder`],
    ['Mix comes to', `${figure(temperatures.mixC, 0)} °C`, ''],
    ['A tonne', figure(cost.cost, 0), `${figure(cost.energyMj, 0)} MJ, ${figure(cost.co2Kg, 0)} kg CO₂`],
  ];
  return (
    <dl className="mx-figures">
      {rows.map(([name, value, more]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className="num">
            <strong>{value}</strong>
            {more !== '' && <span className="soft"> {more}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

export function Findings({ findings }: { readonly findings: readonly Finding[] }) {
  if (findings.length === 0)
    return (
      <p className="mx-good">
        <Mark shape="check" /> Nothing speaks against it.
      </p>
    );
  return (
    <ul className="mx-findings">
      {findings.map((one) => (
        <li key={one.words} className={one.weight}>
          <Mark shape={SHAPE[one.weight]} />
          <span>
            <strong>{WORD[one.weight]}:</strong> {one.words}
          </span>
        </li>
      ))}
    </ul>
  );
}

export function Summary({
  mix,
  base,
  draft,
  sheet,
  wrong,
  specification,
  book,
}: {
  readonly mix: MixView;
  readonly base: Mix;
  readonly draft: DraftHere;
  readonly sheet: MixSheet;
  readonly wrong: readonly string[];
  readonly specification: Specification | null;
  readonly book: MixesHere;
}) {
  const [putting, setPutting] = useState(false);
  const changes = differences(base, draft.content);
  const findings: readonly Finding[] = [
    ...wrong.map((words): Finding => ({ weight: 'stop', part: 'blend', words: `${words}.` })),
    ...sheet.findings,
  ];
  const why = book.whyNot('draftMix');
  return (
    <aside className="mx-side card stack" aria-label="Summary of the mix">
      <div>
        <h2>{draft.content.name}</h2>
        <p className="soft">
          {draft.content.family},{' '}
          {changes.length === 0
            ? `as version ${base.version}`
            : `${plural(changes.length, 'change')} from version ${base.version}`}
          {specification === null ? '' : `; by ${specification.name}`}
        </p>
      </div>
      <Figures sheet={sheet} content={draft.content} />
      <Findings findings={findings} />
      <div className="row">
        <button
          type="button"
          className="button"
          data-barred={draft.undo === null}
          aria-disabled={draft.undo === null}
          onClick={() => draft.undo?.()}
        >
          Undo
        </button>
        <button
          type="button"
          className="button primary"
          data-barred={why !== null || changes.length === 0}
          onClick={() => {
            if (why !== null) book.asked.explain([why]);
            else if (changes.length === 0)
              book.asked.explain([`This is version ${base.version} as it stands: change something first.`]);
            else setPutting(true);
          }}
        >
          Put in as a draft
        </button>
      </div>
      <label className="field">
        <span className="field-label">Begin from</span>
        <select
          value={draft.from.version}
          onChange={(event) => {
            const chosen = mix.versions.find((one) => one.content.version === Number(event.target.value));
            if (chosen !== undefined) draft.startFrom(chosen.content);
          }}
        >
          {mix.versions.map(({ content, state }) => (
            <option key={content.version} value={content.version}>
              Version {content.version}, {STATE_WORDS[state]}
            </option>
          ))}
        </select>
      </label>
      <nav className="mx-parts" aria-label="Parts of the sheet">
        {PARTS.map(([part, words]) => (
          <a key={part} href={`#mx-${part}`}>
            {words}
          </a>
        ))}
        <Link href="/yard/mixes">All mixes</Link>
      </nav>
      {putting && (
        <PutDialog
          mix={mix}
          content={draft.content}
          from={draft.from}
          changes={changes}
          book={book}
          onClose={() => setPutting(false)}
          onDone={() => {
            setPutting(false);
            draft.forget();
          }}
        />
      )}
    </aside>
  );
}
