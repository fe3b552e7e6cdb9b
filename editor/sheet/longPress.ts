/** A finger that rests where it came down asks for the menu. Some browsers tell of it as a right button, others not at all. */

const REST_ms = 500;
/** A resting finger trembles. */
const STILL_px = 8;

const swallow = (event: Event): void => {
  event.preventDefault();
  event.stopPropagation();
};
/** When the finger that rested is lifted, the browser may take that for a tap on what has meanwhile come under it: a line of the menu. */
function swallowLift(): void {
  window.addEventListener('click', swallow, true);
  window.addEventListener('pointerdown', () => window.removeEventListener('click', swallow, true), { capture: true, once: true });
}

export function onLongPress(box: HTMLElement, ask: (event: PointerEvent) => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let began: PointerEvent | null = null;
  const stop = () => {
    clearTimeout(timer);
    began = null;
  };
  const onDown = (event: PointerEvent) => {
    stop();
    if (event.pointerType !== 'touch' || !event.isPrimary) return;
    began = event;
    timer = setTimeout(() => {
      swallowLift();
      ask(event);
    }, REST_ms);
  };
  const onMove = ({ clientX, clientY }: PointerEvent) => {
    if (began && Math.hypot(clientX - began.clientX, clientY - began.clientY) > STILL_px) stop();
  };
  const handlers = [
    ['pointerdown', onDown],
    ['pointermove', onMove],
    ['pointerup', stop],
    ['pointercancel', stop],
  ] as const;
  for (const [name, handler] of handlers) box.addEventListener(name, handler as EventListener, true);
  return () => {
    stop();
    for (const [name, handler] of handlers) box.removeEventListener(name, handler as EventListener, true);
  };
}
