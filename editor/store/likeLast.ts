import { type Cable, FIELDS, type LineUp, valueAt, withValueAt } from '../../engine/index.ts';

/**
 * A new cable is made like the last one on the same side of its run: lines of one site mostly are. Each value is marked as assumed, and
 * after which cable; what belongs to the place of one cable (length, ends, neighbours, age, moisture, heat) is asked anew.
 */

const LIKE =
  /^(conductor|insulation|grounds|wave)\.|^(construction|shieldCoverage_pct|shieldArea_mm2|phasesScreened|outerDiameter_mm)$|^installation\.(method|raceway|loadedConductors)$/;

export function likeLast(lineUp: LineUp, cable: Cable): Cable {
  const side = sideOf(lineUp, cable);
  const run = connectedTo(lineUp, cable);
  const last = lineUp.cables.findLast(
    (each) => each.kind === 'cable' && each.id !== cable.id && run.has(each.id) && sideOf(lineUp, each) === side,
  );
  if (!last || side === null) return cable;
  const paths = FIELDS.cable.flatMap(({ path }) => (LIKE.test(path) && valueAt(last, path) !== undefined ? [path] : []));
  const made = paths.reduce((before, path) => withValueAt(before, path, valueAt(last, path)), cable);
  const origin = { origin: 'assumed' as const, page: `as on ${last.tag}` };
  return { ...made, provenance: { ...cable.provenance, ...Object.fromEntries(paths.map((path) => [path, origin])) } };
}

/** Behind a drive, or ahead of one; null where neither a drive nor a supply is reached. */
function sideOf({ cables, elements }: LineUp, cable: Cable): 'input' | 'output' | null {
  const seen = new Set<string>();
  const ahead = [cable.from.element];
  for (const id of ahead) {
    if (id === undefined || seen.has(id)) continue;
    seen.add(id);
    const kind = elements.find((each) => each.id === id)?.kind;
    if (kind === 'drive') return 'output';
    if (kind === 'supply') return 'input';
    for (const each of cables) if (each.to.element === id) ahead.push(each.from.element);
  }
  return null;
}

function connectedTo({ cables }: LineUp, cable: Cable): ReadonlySet<string> {
  const reached = new Set<string>();
  const parts = [cable.from.element, cable.to.element];
  const seen = new Set<string>();
  for (const id of parts) {
    if (id === undefined || seen.has(id)) continue;
    seen.add(id);
    for (const each of cables)
      if (each.from.element === id || each.to.element === id) {
        reached.add(each.id);
        parts.push(each.from.element, each.to.element);
      }
  }
  return reached;
}
