import { getViewportForBounds, useReactFlow, useStoreApi } from '@xyflow/react';
import { useCallback } from 'react';
import { PX } from './scale.ts';

/** Moves the view: all that is drawn, labels included, or one place of it. */

export interface Area_mm {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
}
const LEAST_ZOOM = 0.1;
/** Above this a small line-up would look like a poster. */
const MOST_ZOOM = 1.2;

export function useView() {
  const { setViewport, getViewport } = useReactFlow();
  const store = useStoreApi();
  const fit = useCallback(
    (area: Area_mm) => {
      const { width, height } = store.getState();
      const bounds = { x: area.x_mm * PX, y: area.y_mm * PX, width: area.width_mm * PX, height: area.height_mm * PX };
      void setViewport(
        area.width_mm > 0 && width > 0
          ? getViewportForBounds(bounds, width, height, LEAST_ZOOM, MOST_ZOOM, '28px')
          : { x: 0, y: 0, zoom: 1 },
      );
    },
    [setViewport, store],
  );
  /** Brings a place into view, without a change when it is there already. */
  const bring = useCallback(
    (area: Area_mm) => {
      const { width, height } = store.getState();
      const { x, y, zoom } = getViewport();
      const left = area.x_mm * PX * zoom + x;
      const top = area.y_mm * PX * zoom + y;
      const inside = left >= 0 && top >= 0 && left + area.width_mm * PX * zoom <= width && top + area.height_mm * PX * zoom <= height;
      if (inside) return;
      void setViewport({
        x: width / 2 - (area.x_mm + area.width_mm / 2) * PX * zoom,
        y: height / 2 - (area.y_mm + area.height_mm / 2) * PX * zoom,
        zoom,
      });
    },
    [getViewport, setViewport, store],
  );
  return { fit, bring };
}
