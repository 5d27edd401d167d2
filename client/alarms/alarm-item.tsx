/** One alarm of the list with the answers its state allows. */
import { memo, useState } from 'react';
import type { AlarmView } from '../../machines/line/view.types.ts';
import { mayGive } from '../../machines/people/permissions.ts';
import { shiftClock } from '../format/format.ts';
import { whyNot } from '../live/may.ts';
import { type Asked, useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { ConfirmDialog } from '../parts/confirm.tsx';
import { Mark, type Shape } from '../parts/mark.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { isUnacknowledged } from './order.ts';
import { ShelveDialog } from './shelve-dialog.tsx';

const SHAPE: { readonly [K in AlarmView['priority']]: Shape } = {
  high: 'triangle',
  medium: 'diamond',
  low: 'square',
};

type Opened = null | 'shelve' | 'outOfService';

function Answers({
  alarm,
  asked,
  open,
}: {
  readonly alarm: AlarmView;
  readonly asked: Asked;
  readonly open: (what: Opened) => void;
}) {
  const at = useStandpoint();
  const guarded = (
    name: 'acknowledge' | 'shelve' | 'unshelve' | 'outOfService' | 'returnToService',
    go: () => void,
  ) => {
    const because = whyNot(name, at);
    if (because.length > 0) asked.explain(because);
    else go();
  };
  const supervises = at.me !== null && mayGive(at.me.role, 'outOfService');
  const aside =
    alarm.state === 'shelved' || alarm.state === 'out of service' || alarm.state === 'suppressed by design';
  return (
    <div className="row">
      {isUnacknowledged(alarm) && (
        <button
          type="button"
          className="button primary"
          aria-label={`Acknowledge ${alarm.text}`}
          onClick={() =>
            guarded(
              'acknowledge',
              () => void asked.send({ do: 'acknowledge', alarm: alarm.id }, 'Acknowledged.'),
            )
          }
        >
          Acknowledge
        </button>
      )}
      {!aside && (
        <button
          type="button"
          className="button"
          aria-label={`Shelve ${alarm.text}`}
          onClick={() => guarded('shelve', () => open('shelve'))}
        >
          Shelve…
        </button>
      )}
      {(!aside || alarm.state === 'shelved') && supervises && (
        <button
          type="button"
          className="button"
          aria-label={`Take out of service: ${alarm.text}`}
          onClick={() => guarded('outOfService', () => open('outOfService'))}
        >
          Out of service…
        </button>
      )}
      {alarm.state === 'shelved' && (
        <button
          type="button"
          className="button"
          aria-label={`Unshelve ${alarm.text}`}
          onClick={() =>
            guarded('unshelve', () => void asked.send({ do: 'unshelve', alarm: alarm.id }, 'Unshelved.'))
          }
        >
          Unshelve
        </button>
      )}
      {alarm.state === 'out of service' && (
        <button
          type="button"
          className="button"
          aria-label={`Return to service: ${alarm.text}`}
          onClick={() =>
            guarded(
              'returnToService',
              () => void asked.send({ do: 'returnToService', alarm: alarm.id }, 'Back in service.'),
            )
          }
        >
          Return to service
        </button>
      )}
    </div>
  );
}

export const AlarmItem = memo(function AlarmItem({
  alarm,
  startsAt,
}: {
  readonly alarm: AlarmView;
  readonly startsAt: string;
}) {
  const asked = useCommand();
  const [opened, setOpened] = useState<Opened>(null);
  const loud = isUnacknowledged(alarm);
  return (
    <li className={`alarm-item ${loud ? alarm.priority : 'quiet'}`}>
      <div className="alarm-head">
        <Mark shape={SHAPE[alarm.priority]} />
        <span className="alarm-priority">{alarm.priority}</span>
        <span className="alarm-state">{alarm.state}</span>
        <span className="num soft">
          {shiftClock(startsAt, alarm.sinceMs)}
          {alarm.until !== null && ` · until ${shiftClock(startsAt, alarm.until, false)}`}
        </span>
      </div>
      <h3>{alarm.text}</h3>
      <p>{alarm.action}</p>
      <Refusal because={asked.refusal} onClose={asked.clear} />
      <Answers alarm={alarm} asked={asked} open={setOpened} />
      {opened === 'shelve' && (
        <ShelveDialog
          alarm={alarm}
          onClose={() => setOpened(null)}
          onGo={(minutes, reason) => {
            setOpened(null);
            void asked.send(
              { do: 'shelve', alarm: alarm.id, minutes, reason },
              `Shelved for ${minutes} minutes.`,
            );
          }}
        />
      )}
      {opened === 'outOfService' && (
        <ConfirmDialog
          title="Take this alarm out of service?"
          words={`“${alarm.text}” will stay silent until someone returns it to service.`}
          go="Take out of service"
          danger
          needsReason
          onClose={() => setOpened(null)}
          onGo={(reason) => {
            setOpened(null);
            void asked.send({ do: 'outOfService', alarm: alarm.id, reason }, 'Out of service.');
          }}
        />
      )}
    </li>
  );
});
