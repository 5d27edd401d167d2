/** One drill under way as a small picture: where the trainee stands, flame, vapour, alarms, score so far. */
import { memo } from 'react';
import { Link } from 'wouter';
import type { SessionAsk, SessionTile } from '../../machines/live/training.ts';
import { plural, share01 } from '../format/format.ts';
import { useCommand } from '../live/use-command.ts';
import { Mark } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { askSession, linePath } from './api.ts';
import { clockOfS, STATE_WORDS } from './words.ts';

/** Vapour against its warning and its trip, drawn to a third beyond the trip. */
function VapourBar({ tile }: { readonly tile: SessionTile }) {
  const most = tile.vapourTripLelPct * 1.33;
  const at = (lelPct: number) => 100 * share01(lelPct, most);
  const high = tile.vapourLelPct >= tile.vapourWarnLelPct;
  return (
    <svg
      className={high ? 'vapour-bar high' : 'vapour-bar'}
      viewBox="0 0 100 12"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect x="0" y="3" width="100" height="6" className="vapour-room" />
      <rect x="0" y="3" width={at(tile.vapourLelPct)} height="6" className="vapour-now" />
      <rect x={at(tile.vapourWarnLelPct) - 0.4} y="0" width="0.8" height="12" className="vapour-limit" />
      <rect x={at(tile.vapourTripLelPct) - 0.4} y="0" width="0.8" height="12" className="vapour-limit" />
    </svg>
  );
}

export const TileFacts = memo(function TileFacts({ tile }: { readonly tile: SessionTile }) {
  return (
    <dl className="tile-facts">
      <div>
        <dt>Dryer flame</dt>
        <dd className={tile.flame ? 'lit' : ''}>
          <Mark shape={tile.flame ? 'triangle' : 'ring'} /> {tile.flame ? 'seen' : 'none'}
        </dd>
      </div>
      <div className="tile-vapour">
        <dt>Vapour at hood</dt>
        <dd className={tile.vapourLelPct >= tile.vapourWarnLelPct ? 'bad num' : 'num'}>
          {tile.vapourLelPct.toFixed(1)} % LEL
          <VapourBar tile={tile} />
        </dd>
      </div>
      <div>
        <dt>Alarms</dt>
        <dd className={tile.alarms.unacknowledged > 0 ? 'bad num' : 'num'}>
          {tile.alarms.unacknowledged > 0 && <Mark shape="triangle" />}{' '}
          {tile.alarms.active === 0 && tile.alarms.unacknowledged === 0
            ? 'none'
            : `${tile.alarms.unacknowledged} new, ${tile.alarms.active} on`}
        </dd>
      </div>
      <div>
        <dt>Interlock</dt>
        <dd className={tile.tripped ? 'bad' : ''}>
          {tile.tripped && <Mark shape="triangle" />} {tile.tripped ? 'tripped' : 'not tripped'}
        </dd>
      </div>
      <div>
        <dt>Score so far</dt>
        <dd className="num">{tile.score === null ? 'nothing yet' : `${tile.score} of 100`}</dd>
      </div>
      <div>
        <dt>Unsafe</dt>
        <dd className={tile.unsafe > 0 ? 'bad num' : 'num'}>
          {tile.unsafe > 0 && <Mark shape="diamond" />} {tile.unsafe === 0 ? 'none' : tile.unsafe}
        </dd>
      </div>
    </dl>
  );
});

export const Tile = memo(function Tile({
  tile,
  leads,
}: {
  readonly tile: SessionTile;
  readonly leads: boolean;
}) {
  const asked = useCommand();
  const ask = (what: SessionAsk, done: string) => void asked.ask(() => askSession(tile.session, what), done);
  const frozen = tile.state === 'frozen';
  return (
    <li className={tile.tripped || tile.unsafe > 0 ? 'card tile alert' : 'card tile'}>
      <div className="tile-head">
        <h3>{tile.trainee.name}</h3>
        <span className={frozen ? 'tag frozen' : 'tag'}>
          {STATE_WORDS[tile.state]}
          {tile.state === 'running' && tile.speed > 1 ? ` ${tile.speed}×` : ''}
        </span>
        <span className="num tile-time">
          {clockOfS(tile.elapsedS)} <span className="soft">of {tile.minutes}:00</span>
        </span>
      </div>
      <p className="soft">
        {tile.drillName}
        {tile.alone ? ', practising alone' : ''}
      </p>
      <div className="bar" aria-hidden="true">
        <i style={{ width: `${100 * share01(tile.elapsedS, tile.minutes * 60)}%` }} />
      </div>
      <p className="tile-step">
        <strong>{tile.step}</strong>
        <span className="soft">
          {tile.over}
          {tile.hasControls ? '' : ' · does not hold the controls'}
        </span>
      </p>
      <TileFacts tile={tile} />
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <div className="row">
        {leads && tile.state !== 'over' && (
          <button
            type="button"
            className="button"
            aria-label={`${frozen ? 'Let' : 'Freeze'} the drill of ${tile.trainee.name}${frozen ? ' go on' : ''}`}
            onClick={() => ask({ do: frozen ? 'goOn' : 'freeze' }, frozen ? 'It goes on.' : 'Frozen.')}
          >
            {frozen ? 'Go on' : 'Freeze'}
          </button>
        )}
        {leads && (
          <Link className="button primary" href={`/training/session/${tile.session}`}>
            Lead
          </Link>
        )}
        <a className="button" href={linePath(tile.session)} target="_blank" rel="noreferrer">
          Look at the console
        </a>
        <span className="soft tile-watch">{plural(tile.watching, 'console')} open</span>
      </div>
    </li>
  );
});
