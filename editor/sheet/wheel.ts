/** A wheel with notches zooms; two fingers on a trackpad pan. Browsers report both as a wheel: fingers move in small or slanting steps. */

const NOTCH_px = 50;

export function isTrackpadPan({ ctrlKey, metaKey, shiftKey, deltaMode, deltaX, deltaY }: WheelEvent): boolean {
  if (ctrlKey || metaKey || deltaMode !== 0) return false;
  return (deltaX !== 0 && !shiftKey) || Math.abs(deltaY) < NOTCH_px;
}
