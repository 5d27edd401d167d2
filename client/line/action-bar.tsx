/** The buttons of the present moment: one big, the rest plain; what cannot be done says why when pressed. */
import { memo, useEffect, useState } from 'react';
import type { Command, CommandName } from '../../machines/line/commands.ts';
import type { ActionView } from '../../machines/line/view.types.ts';
import { type Standpoint, whyNot } from '../live/may.ts';
import { sentences } from '../live/said.ts';
import { useLive } from '../live/store.ts';
import { useCommand } from '../live/use-command.ts';
import { useStandpoint } from '../live/use-standpoint.ts';
import { ConfirmDialog } from '../parts/confirm.tsx';
import { Refusal } from '../parts/refusal.tsx';
import { CloseShiftDialog } from '../shift-close/close-dialog.tsx';
import { columnsFor } from './columns.ts';
import { onlookerWords } from './onlooker.ts';

const NONE: readonly ActionView[] = [];

const DANGER_WORDS: { readonly [command: string]: string } = {
  abort:
    'The batch ends now where it stands. What is in the mixer stays there until it is dumped or discharged.',
  stop: 'The batch ends in an orderly way. It cannot be restarted afterwards.',
  dump: 'What is in the pug mill goes to the waste skip and is booked as waste.',
};

/** Putting out a flame makes things safe: it must not wait for a second press. */
const AT_ONCE = ['putOutBurner'];
/** Pressed at the foot of the cautions themselves, so that they are passed by nobody's eyes. */
const ON_CARD = 'acknowledgeCautions';
const ASK_ALWAYS = ['endShift'];

const asksFirst = (action: ActionView): boolean =>
  action.needsReason ||
  ASK_ALWAYS.includes(action.command.do) ||
  (action.weight === 'danger' && !AT_ONCE.includes(action.command.do));

/** The line says once more that the controls are not held; this side has said it with what to do about it. */
const SEAT_REASON = /^(Take the controls first|Another console has the controls)/;

const reasonsOf = (action: ActionView, at: Standpoint): readonly string[] => {
  const own = whyNot(action.command.do as CommandName, at);
  const lines = own.length > 0 ? action.because.filter((why) => !SEAT_REASON.test(why)) : action.because;
  return [...own, ...lines];
};

const keyOf = (action: ActionView): string => JSON.stringify(action.command) + action.label;

export const ActionButton = memo(function ActionButton({
  action,
  because,
  waiting,
  onPress,
}: {
  readonly action: ActionView;
  readonly because: readonly string[];
  readonly waiting: boolean;
  readonly onPress: (action: ActionView, because: readonly string[]) => void;
}) {
  const look = action.weight === 'primary' ? 'primary' : action.weight === 'danger' ? 'danger' : '';
  return (
    <button
      type="button"
      className={`button act ${look}`}
      data-do={action.command.do}
      data-barred={because.length > 0}
      aria-busy={waiting}
      onClick={() => onPress(action, because)}
    >
      {action.label}
      {because.length > 0 && <span className="hidden-words"> (not now: {sentences(because)})</span>}
    </button>
  );
});

export function ActionBar() {
  const actions = useLive((live) => live.view?.now.actions ?? NONE);
  const at = useStandpoint();
  const asked = useCommand();
  const [sure, setSure] = useState<ActionView | null>(null);
  const [pressed, setPressed] = useState('');
  const [explained, setExplained] = useState(false);

  const send = (action: ActionView, reason: string) => {
    const command = action.needsReason ? { ...action.command, reason } : action.command;
    // The line made this command itself; it is checked again where it arrives.
    void asked.send(command as Command, `${action.label}: done.`);
  };
  const press = (action: ActionView, because: readonly string[]) => {
    setPressed(keyOf(action));
    setExplained(because.length > 0);
    if (because.length > 0) asked.explain(because);
    else if (asked.barred !== null) asked.explain([asked.barred]);
    else if (asksFirst(action)) setSure(action);
    else send(action, '');
  };

  // What stood in the way has gone: the words about it would now be untrue.
  const now = actions.find((action) => keyOf(action) === pressed);
  const wayIsFree = now === undefined || reasonsOf(now, at).length === 0;
  const { clear } = asked;
  useEffect(() => {
    if (wayIsFree && explained) {
      setExplained(false);
      clear();
    }
  }, [wayIsFree, explained, clear]);

  const shown = actions
    .filter((action) => action.command.do !== ON_CARD)
    .sort((a, b) => Number(b.weight === 'primary') - Number(a.weight === 'primary'));
  const onlooker = shown.length === 0 ? null : onlookerWords(at);
  const others = shown.filter((action) => action.weight !== 'primary').length;
  return (
    <div className="acts-box">
      <Refusal because={asked.refusal} onClose={asked.clear} />
      {onlooker !== null && <p className="soft">{onlooker}</p>}
      <fieldset
        className="acts"
        data-columns={columnsFor(others)}
        aria-label="What you can do now"
        data-guide="actions"
      >
        {shown.map((action) => (
          <ActionButton
            key={keyOf(action)}
            action={action}
            because={reasonsOf(action, at)}
            waiting={asked.waiting && pressed === keyOf(action)}
            onPress={press}
          />
        ))}
      </fieldset>
      {sure?.command.do === 'endShift' && <CloseShiftDialog onClose={() => setSure(null)} />}
      {sure !== null && sure.command.do !== 'endShift' && (
        <ConfirmDialog
          title={sure.weight === 'danger' ? `${sure.label}?` : sure.label}
          words={DANGER_WORDS[sure.command.do] ?? 'This is written to the record under your name.'}
          go={sure.label}
          danger={sure.weight === 'danger'}
          needsReason={sure.needsReason}
          onClose={() => setSure(null)}
          onGo={(reason) => {
            setSure(null);
            send(sure, reason);
          }}
        />
      )}
    </div>
  );
}
