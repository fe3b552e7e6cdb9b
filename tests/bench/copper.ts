import { type LineUp, leastCopper, review } from '../../engine/index.ts';
import { inSteel, LineUpBuilder, shielded } from '../engine/lineUpBuilder.ts';
import { manyRuns } from '../engine/manyRuns.ts';
import { inMs, inTurns, type Row, times } from './row.ts';

/** Runs of three cables each, feeder, lead to the disconnect, lead to the motor, on one bus. */
function twelveCables(): LineUp {
  const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
  const site = new LineUpBuilder({ title: 'twelve cables' })
    .part('supply', { tag: 'S-1', voltage_V: 480, frequency_Hz: 60, faultCurrent_A: 30_000, xOverR: 8, earthing: 'solid-wye' })
    .part('bus', { tag: 'B-1', ...marks });
  for (let i = 1; i <= 4; i++)
    site
      .from('B-1')
      .part('disconnect', { tag: `CB-${i}`, device: 'breaker', tripCurrent_A: 100, ...marks })
      .cable(inSteel('3 AWG', 80 + 20 * i, { tag: `F-${i}` }))
      .part('drive', { tag: `VFD-${i}`, ratedVoltage_V: 480, inputCurrent_A: 72, outputCurrent_A: 90, inputPowerFactor: 0.9, ...marks })
      .cable(shielded('2 AWG', 150 + 50 * i, { tag: `W-${i}A` }))
      .part('disconnect', { tag: `DS-${i}`, device: 'switch', ...marks })
      .cable(shielded('2 AWG', 20, { tag: `W-${i}B` }))
      .part('motor', {
        tag: `M-${i}`,
        ratedPower_W: 44_742,
        ratedVoltage_V: 460,
        ratedFrequency_Hz: 60,
        ratedCurrent_A: 75,
        powerFactor: 0.86,
        ...marks,
      });
  return site.build();
}

/** The many runs behind one trunk each ten: bus, feeder to a panel, feeders of ten drives from there. */
function sharedFeeders(): LineUp {
  const site = manyRuns(100);
  const marks = { box: 'metal', terminalTemperature_C: 75, terminalMetal: 'copper-aluminium' } as const;
  const trunks = Array.from({ length: 10 }, (_, k) => k + 1);
  const bus = site.elements.find((element) => element.tag === 'B-1')?.id ?? '';
  const panels = trunks.map((k) => ({ id: `p${k}`, kind: 'bus' as const, tag: `P-${k}`, ...marks }));
  const feeders = trunks.map((k) => ({
    ...inSteel('500 kcmil', 150, { tag: `T-${k}`, conductor: { size: '500 kcmil', metal: 'copper', sets: 3 } }),
    setsAlike: true,
    setsHoldAllPhases: true,
    auxiliary: [],
    kind: 'cable' as const,
    id: `t${k}`,
    tag: `T-${k}`,
    from: { element: bus, port: 'load' as const },
    to: { element: `p${k}`, port: 'line' as const },
  }));
  let next = 0;
  const cables = site.cables.map((cable) =>
    cable.from.element === bus ? { ...cable, from: { ...cable.from, element: `p${1 + Math.floor(next++ / 10)}` } } : cable,
  );
  // A source that a hundred drives do not pull down: at 30 kA no size of anything would leave the motors their voltage.
  const elements = site.elements.map((element) => (element.kind === 'supply' ? { ...element, faultCurrent_A: 200_000 } : element));
  return { ...site, elements: [...elements, ...panels], cables: [...cables, ...feeders] as LineUp['cables'] };
}

const SITES = { '12 cables on one bus': twelveCables, '100 runs behind ten shared feeders': sharedFeeders };

/** How long the search for the least conductor takes, beside one full review of the same site. */
export async function rows(): Promise<readonly Row[]> {
  const found: Row[] = [];
  for (const [name, make] of Object.entries(SITES)) {
    const site = make();
    const ms = await inTurns({ search: () => leastCopper(site), review: () => review(site) });
    found.push({
      what: `least conductor, ${name}`,
      figure: inMs(ms.search),
      yardstick: `${inMs(ms.review)} for one full review`,
      ratio: times(ms.search, ms.review),
    });
  }
  return found;
}
