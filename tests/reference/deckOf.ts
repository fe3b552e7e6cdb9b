import type { WaveNetwork } from '../../engine/physics/wave/characteristics.ts';

/** The same tree of lines as a deck for the circuit simulator. Lines with loss become its lossy lines of constant resistance. @param crest_s where a second crest is looked for */
export function deckOf(
  { lines, shunts, source, inductance_H, across_ohm, watch, until_s }: WaveNetwork,
  crest_s?: readonly [number, number],
): string {
  const text = ['* travelling waves', `Vs in 0 PWL(${source.map(([t, v]) => `${t} ${v}`).join(' ')})`];
  if (inductance_H) text.push(`Lr in n0 ${inductance_H}`, `Rc in n0 ${across_ohm}`);
  else text.push('Vz in n0 0');
  lines.forEach((each, i) => {
    if (each.resistance_ohm === 0) text.push(`T${i} n${each.from} 0 n${each.to} 0 Z0=${each.impedance_ohm} TD=${each.delay_s}`);
    else
      text.push(
        `O${i} n${each.from} 0 n${each.to} 0 lossy${i}`,
        `.model lossy${i} LTRA(R=${each.resistance_ohm} L=${each.delay_s * each.impedance_ohm} C=${each.delay_s / each.impedance_ohm} G=0 LEN=1)`,
      );
  });
  shunts.forEach((each, i) => {
    if (each.capacitance_F) text.push(`R${i} n${each.node} c${i} ${each.resistance_ohm}`, `C${i} c${i} 0 ${each.capacitance_F}`);
    else text.push(`R${i} n${each.node} 0 ${each.resistance_ohm}`);
  });
  // Its lossy lines remember all that was: many steps are dear.
  const step = lines.some((each) => each.resistance_ohm > 0) ? '2n' : '1n';
  text.push(
    '.options reltol=1e-5 abstol=1e-9 vntol=1e-6',
    `.tran ${step} ${until_s} 0 ${step}`,
    `.meas tran vpk MAX v(n${watch})`,
    `.meas tran vmn MIN v(n${watch})`,
    ...(crest_s ? [`.meas tran second MAX v(n${watch}) from=${crest_s[0]} to=${crest_s[1]}`] : []),
    '.end',
    '',
  );
  return text.join('\n');
}
