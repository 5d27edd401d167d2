/** How to read the screen, the shortcuts, the guide, and what this program is not. */
import { SESSION } from '../live/session.ts';
import { useLive } from '../live/store.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Mark } from '../parts/mark.tsx';
import { CAUTION } from './bottom-bar.tsx';
import { SHORTCUTS, switchShortcuts, useShortcutsOn } from './shortcuts.ts';

export function HelpDialog({
  onClose,
  onGuide,
}: {
  readonly onClose: () => void;
  readonly onGuide: () => void;
}) {
  const shortcuts = useShortcutsOn();
  const program = useLive((live) => live.program);
  return (
    <Dialog title="Help" onClose={onClose} wide>
      <div className="tools">
        <section>
          <h3>First batch, step by step</h3>
          <p>The guide points at each control in turn and goes on when the line says you did it.</p>
          <button type="button" className="button primary" onClick={onGuide}>
            Start or resume the guide
          </button>
        </section>
        <section>
          <h3>Marks</h3>
          <ul className="legend">
            <li>
              <Mark shape="dot" /> met, nothing to do
            </li>
            <li className="unmet">
              <Mark shape="ring" /> not met yet, the work waits for it
            </li>
            <li className="alarm">
              <Mark shape="triangle" /> alarm, high priority: wants a person now
            </li>
            <li className="unmet">
              <Mark shape="diamond" /> alarm, medium priority
            </li>
            <li>
              <Mark shape="square" /> alarm, low priority
            </li>
          </ul>
          <p className="soft">Grey is normal. A dashed button cannot be used now; press it to read why.</p>
        </section>
        {SESSION === null && (
          <section>
            <h3>Where things are</h3>
            <ul className="help-pages">
              <li>
                <strong>Line</strong> makes batches; <strong>Interlock</strong> says what it forbids and why.
              </li>
              <li>
                <strong>Lab</strong> takes a lot from its samples to the decision whether it may leave.
              </li>
              <li>
                <strong>Yard</strong> goes from patch list to order, plan, materials, bays, loads and patches
                laid; <strong>Trace</strong> goes back.
              </li>
              <li>
                <strong>Records</strong> keep all of it, <strong>Training</strong> rehearses.
              </li>
            </ul>
          </section>
        )}
        <section>
          <h3>Keys</h3>
          <dl className="keys">
            {SHORTCUTS.map(({ key, words }) => (
              <div key={key}>
                <dt>
                  <kbd>{key}</kbd>
                </dt>
                <dd>{words}</dd>
              </div>
            ))}
            <div>
              <dt>
                <kbd>Esc</kbd>
              </dt>
              <dd>Close what is open</dd>
            </div>
          </dl>
          <label className="check">
            <input
              type="checkbox"
              className="hidden-words"
              checked={shortcuts}
              onChange={(event) => switchShortcuts(event.target.checked)}
            />
            <span className="box">
              <Mark shape="check" />
            </span>
            Single-key shortcuts are on
          </label>
        </section>
        <section>
          <h3>What this is</h3>
          <p>{CAUTION}</p>
          <p className="soft">{program}</p>
        </section>
      </div>
    </Dialog>
  );
}
