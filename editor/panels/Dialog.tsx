import { type ReactNode, type SyntheticEvent, useEffect, useRef } from 'react';

export interface DialogProps {
  readonly title: string;
  /** What ears are told it is, where that is not the title. */
  readonly label?: string;
  readonly className: string;
  readonly onClose: () => void;
  /** What closes it from within is handed in. */
  readonly children: ReactNode | ((close: () => void) => ReactNode);
}

/** A window over the page: opened as it appears, with its title and the way out. */
export function Dialog({ title, label = title, className, onClose, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const close = (): void => dialog.current?.close();
  // React tells it to the one around it too: that one stays.
  const closed = (event: SyntheticEvent): void => {
    event.stopPropagation();
    onClose();
  };
  return (
    <dialog ref={dialog} className={className} aria-label={label} onClose={closed}>
      <div className="top">
        <h2 className="serif">{title}</h2>
        <button type="button" onClick={close}>
          Close
        </button>
      </div>
      {typeof children === 'function' ? children(close) : children}
    </dialog>
  );
}
