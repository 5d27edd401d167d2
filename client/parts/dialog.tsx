/** A modal dialog on the platform's own <dialog>: it holds focus, closes on Escape and gives focus back. */
import { type ReactNode, useEffect, useId, useRef } from 'react';
import { EmergencyStop } from '../shell/emergency-stop.tsx';

export function Dialog({
  title,
  onClose,
  children,
  wide = false,
  alert = false,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  readonly wide?: boolean;
  readonly alert?: boolean;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const dialog = ref.current;
    if (dialog === null) return;
    const before = document.activeElement;
    if (!dialog.open) dialog.showModal();
    return () => {
      dialog.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={ref}
      className={wide ? 'dialog wide' : 'dialog'}
      role={alert ? 'alertdialog' : 'dialog'}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <div className="dialog-card">
        <div className="dialog-head">
          <h2 id={titleId} tabIndex={-1}>
            {title}
          </h2>
          <button type="button" className="button quiet" onClick={onClose} aria-label="Close">
            ✕
          </button>
        </div>
        <div className="dialog-body">{children}</div>
      </div>
      {/* Everything outside a modal is out of reach, so the emergency stop comes along. */}
      <EmergencyStop />
    </dialog>
  );
}
