/** Every requirement of the interlocks with its state now, what it guards against and what clears it. */
import { useState } from 'react';
import {
  CAUSES,
  type InterlockCauseId,
} from '../../machines/charts/flame-interlock/flame-interlock.causes.ts';
import { keepUnits } from '../format/format.ts';
import { useLive } from '../live/store.ts';
import { Mark } from '../parts/mark.tsx';
import { type CauseState, GROUPS, idsOf, nowWords, stateOf, stateWords } from './causes.ts';
import { NO_CAUSES } from './empty.ts';

const SHAPE = { clear: 'dot', holds: 'ring', latched: 'triangle' } as const;

/** A trip cause that stands is an alarm; a permissive that is not met only waits. */
const toneOf = (id: InterlockCauseId, state: CauseState): string =>
  state === 'clear' ? 'met' : state === 'latched' || id.startsWith('FT') ? 'alarm' : 'unmet';

function Requirement({ id, state }: { readonly id: InterlockCauseId; readonly state: CauseState }) {
  const { words, hazard, mustNever, elements, clears, reset } = CAUSES[id];
  return (
    <li className={`requirement ${toneOf(id, state)}`}>
      <details>
        <summary>
          <Mark shape={id.startsWith('FT') && state === 'holds' ? 'triangle' : SHAPE[state]} />
          <span className="requirement-id num">{id}</span>
          <span className="requirement-words">{keepUnits(nowWords(id, state))}</span>
          <span className="requirement-state">{stateWords(id, state)}</span>
        </summary>
        <dl className="requirement-more">
          <div>
            <dt>Hazard</dt>
            <dd>{hazard}</dd>
          </div>
          <div>
            <dt>Must never be</dt>
            <dd>{mustNever}</dd>
          </div>
          <div>
            <dt>Acts on</dt>
            <dd>{elements}</dd>
          </div>
          <div>
            <dt>Clears when</dt>
            <dd>
              {clears}; reset: {reset}
            </dd>
          </div>
          <div>
            <dt>What to do</dt>
            <dd>{words.clear}</dd>
          </div>
        </dl>
      </details>
    </li>
  );
}

export function Requirements() {
  const causes = useLive((live) => live.view?.causes ?? NO_CAUSES);
  const [onlyActive, setOnlyActive] = useState(false);
  const active = causes.holding.length;
  return (
    <section className="stack" aria-labelledby="requirements-title">
      <div className="lot-head">
        <h2 id="requirements-title">Requirements</h2>
        <p className="soft">
          {active === 0 ? 'Every one is met just now.' : `${active} not met or standing just now.`} Not all of
          them matter at every moment: what waits is no alarm.
        </p>
        <button
          type="button"
          className="button head-act"
          aria-pressed={onlyActive}
          onClick={() => setOnlyActive(!onlyActive)}
        >
          Only what is not met
        </button>
      </div>
      <div className="requirement-groups">
        {GROUPS.map(({ prefix, title, about }) => {
          const all = idsOf(prefix);
          const shown = onlyActive ? all.filter((id) => stateOf(id, causes) !== 'clear') : all;
          return (
            <section key={prefix} className="card" aria-label={title}>
              <h3>{title}</h3>
              <p className="soft">{about}</p>
              {shown.length === 0 && <p className="soft">All of these are met.</p>}
              <ul>
                {shown.map((id) => (
                  <Requirement key={id} id={id} state={stateOf(id, causes)} />
                ))}
              </ul>
            </section>
          );
        })}
      </div>
    </section>
  );
}
